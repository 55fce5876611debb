import { expectManyRun } from './manyPrograms.ts';

expectManyRun('first');
