import { expectManyRun } from './manyPrograms.ts';

expectManyRun('second');
