import { testEveryMutant } from './everyMutant.ts';

testEveryMutant(1);
