import { localScopesInPieces } from '../analysis/localScopes.ts';
import { readBeforeSetInPieces } from '../analysis/readBeforeSet.ts';
import type { Rule } from './rule.ts';

export const unsetParameter: Rule = {
  id: 'unset-parameter',
  severity: 'warning',
  title: 'a local parameter that is read and was never set',
  what: 'A local name, or a local number in a subroutine whose calls all stand in the file, is read where no path has set it. Globals, numbers that outlast the program and arguments are never reported (a number is an argument where at least one call in the file hands it over), nor a test of whether an argument was given.',
  why: 'The control stops with an alarm, or takes 0: an axis goes to 0, a touch starts from somewhere else, a datum is set without what was meant to be added. Most often the name is mistyped.',
  instead: 'Set it before, on every path, or correct its name.',
  source: 'common practice, no source',
  fails: [
    { dialect: 'rs274ngc', program: 'G21 G90 G94\n#<depth>=3\nG0 Z[#<dept> + 1]\n(print,#<depth>)\nM2\n' },
    {
      dialect: 'macro',
      program: 'O1\nG21 G90 G94\nG65 P2 A1.\nM30\nO2\nG0 X#1\nG0 Y#2\nM99\n',
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program:
        'G21 G90 G94\no1 if [#<_top> GT 0]\n  #<depth>=3\no1 endif\nG0 Z[#<depth> + 1]\nG0 X#<_far> Y#5\nM2\n',
    },
    {
      dialect: 'macro',
      program: 'O1\nG21 G90 G94\nG65 P2 A1.\nM30\nO2\nIF[#2NE#0]GOTO5\n#2=4.\nN5 G0 X#1 Y#2\nM99\n',
    },
  ],
  *check({ analysis }) {
    for (const scope of yield* localScopesInPieces(analysis)) {
      const set = new Set(scope.uses.flatMap(({ sets }) => sets.map(({ name }) => name)));
      for (const { name, place } of yield* readBeforeSetInPieces(scope, analysis.source)) {
        // A code that the shop has made a call of fills names of its own.
        if (name === null || (scope.isOpen && !set.has(name))) continue;
        // What stands in a line that is no block is told as such.
        if (analysis.source.block(place.line).faults.length > 0) continue;
        yield { message: /^\d/.test(name) ? ofNumber(name) : ofName(name), place };
      }
    }
  },
};

function ofName(name: string): string {
  return `#<${name}> is read here, and no path sets it before: the control stops with an alarm, or takes 0.`;
}

function ofNumber(name: string): string {
  return `#${name} is read here, no path sets it before, and no call in the file hands it over: the control takes 0, or nothing.`;
}
