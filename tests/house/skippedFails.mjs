import { recordResult } from '../../.scripts/results.mjs';

/** Counts the tests for the closing sum; a skipped test, or no test at all, fails the run like a failed one. */
export default class SkippedFails {
  #vitest;

  onInit(vitest) {
    this.#vitest = vitest;
  }

  onTestRunEnd(modules) {
    // Somebody who runs one test by its name has asked for the others to be left out.
    if (this.#vitest.config.testNamePattern !== undefined) return;
    const states = modules.flatMap((module) =>
      [...module.children.allTests()].map((test) => test.result().state),
    );
    const passed = states.filter((state) => state === 'passed').length;
    const skipped = states.filter((state) => state === 'skipped').length;
    if (skipped > 0) console.error(`${skipped} tests were skipped: a skipped test counts as failed.`);
    if (states.length === 0) console.error('No test ran.');
    if (skipped > 0 || states.length === 0) process.exitCode = 1;
    const kind = process.env.PROBEWRIGHT_TEST_KIND;
    if (kind) recordResult(kind, { passed, failed: states.length - passed });
  }
}
