import { testEveryMutant } from './everyMutant.ts';

testEveryMutant(0);
