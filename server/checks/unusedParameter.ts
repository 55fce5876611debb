import { isOwnLocal, type LocalScope, localScopesInPieces } from '../analysis/localScopes.ts';
import type { ParameterSet } from '../analysis/parameterUses.ts';
import type { Source } from '../syntax/source.ts';
import type { Rule } from './rule.ts';

export const unusedParameter: Rule = {
  id: 'unused-parameter',
  severity: 'info',
  title: 'a local parameter that is set and never read',
  what: 'A local name, or a local number in a subroutine whose calls all stand in the file, is set and nothing reads it but what sets such parameters. A comment that names it, as `#<depth>`, counts as reading. Globals and numbers that outlast the program are never reported: others may read them.',
  why: 'Nothing at the machine; but a value that was worked out and goes nowhere is often one whose name is mistyped where it should be used, or a result that never reaches its datum.',
  instead: 'Use it, print it, or take it out.',
  source: 'common practice, no source',
  fails: [
    { dialect: 'rs274ngc', program: 'G21 G90 G94\n#<depth>=3\n#<deep>=[#<depth> * 2]\nG0 Z5\nM2\n' },
    { dialect: 'macro', program: 'O1\nG21 G90 G94\nG65 P2 A1.\nM30\nO2\n#10=#1*2\nG0 X#1\nM99\n' },
  ],
  passes: [
    { dialect: 'rs274ngc', program: 'G21 G90 G94\n#<depth>=3\n(print,#<depth>)\n#<_far>=4\n#5=1\nM2\n' },
    { dialect: 'macro', program: 'O1\nG21 G90 G94\nG65 P2 A1.\nM30\nO2\n#10=#1*2\nG0 X#10\n#110=4\nM99\n' },
  ],
  *check({ analysis }) {
    for (const scope of yield* localScopesInPieces(analysis))
      for (const { name, place } of yield* neverRead(scope, analysis.source)) {
        // What stands in a line that is no block is told as such.
        if (analysis.source.block(place.line).faults.length > 0) continue;
        yield {
          message: `#${name !== null && /^\d/.test(name) ? name : `<${name}>`} is set here and never read.`,
          place,
        };
      }
  },
};

/** Blocks taken between two pauses. */
const atOnce = 2000;

/** The first setting of each local whose value goes nowhere. */
function* neverRead(scope: LocalScope, source: Source): Generator<undefined, ParameterSet[]> {
  const { uses, hasComputed } = scope;
  const first = new Map<string, ParameterSet>();
  for (const [i, { sets }] of uses.entries()) {
    if (i % atOnce === 0) yield undefined;
    for (const set of sets) {
      const { name } = set;
      if (name === null || first.has(name) || !isOwnLocal(name, scope, source)) continue;
      // A computed number may read any of them.
      if (!(hasComputed && /^\d/.test(name))) first.set(name, set);
    }
  }
  if (first.size === 0) return [];
  const reads = uses.flatMap((each) => each.reads);
  for (let before = -1; before !== first.size; ) {
    before = first.size;
    yield undefined;
    for (const { name, into } of reads)
      if (name !== null && (into === null || !first.has(into))) first.delete(name);
  }
  return [...first.values()];
}
