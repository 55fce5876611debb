import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect } from 'vitest';
import { checkText, readMarks, type Setting } from './marked.ts';
import { expectFixed } from './rulePrograms.ts';

const programs = join(import.meta.dirname, '../programs');

/**
 * Every sample with one line dropped, doubled or swapped with the next: programs as they stand in the middle of an
 * edit. Whatever is found in them, each fix must take its finding away and add none. `step`: one mutant in so many.
 */
export function tryFixesOnMutants(step: number): void {
  let mutants = 0;
  let fixes = 0;
  for (const [text, setting] of samples())
    for (const mutant of mutantsOf(text)) {
      if (mutants++ % step !== 0) continue;
      for (const finding of checkText(mutant, setting).findings)
        for (const fix of finding.fixes) {
          fixes++;
          expectFixed(mutant, finding, fix, setting);
        }
    }
  expect(fixes).toBeGreaterThan(mutants / step / 10);
}

function* samples(): Iterable<[string, Setting]> {
  for (const folder of ['habits', 'faults', 'milling'])
    for (const name of readdirSync(join(programs, folder))) {
      const { text } = readMarks(readFileSync(join(programs, folder, name), 'utf8'));
      yield [text, { dialect: name.endsWith('.ngc') ? 'rs274ngc' : 'macro' }];
    }
}

function* mutantsOf(text: string): Iterable<string> {
  const lines = text.split('\n');
  for (const [index, line] of lines.entries()) {
    const [before, after] = [lines.slice(0, index), lines.slice(index + 1)];
    yield [...before, ...after].join('\n');
    yield [...before, line, line, ...after].join('\n');
    yield [...before, after[0] ?? '', line, ...after.slice(1)].join('\n');
  }
}
