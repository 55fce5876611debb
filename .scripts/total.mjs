// Ends a run with the sum of everything that npm test and npm run test:long counted.
import { sumResults } from './results.mjs';

const { passed, failed } = sumResults();
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed === 0 && passed > 0 ? 0 : 1);
