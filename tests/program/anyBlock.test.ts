import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { execute } from '../../server/program/execute.ts';
import { missingWords } from '../../server/program/missingWords.ts';
import { axisLetters, equal, join, startState } from '../../server/program/state.ts';
import { unusedWords } from '../../server/program/unusedWords.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import { randomLine } from '../syntax/randomLines.ts';
import { NumericWorld, numericStart } from './numericWorld.ts';

/** Blocks that do something, so that random ones fall on every kind of state. */
const doing = fc.constantFrom(
  'G68 X1. Y2. R30.',
  'G51 X0 Y0 P1500',
  'G16',
  'G52 X1',
  'G92 Y3',
  'G10 L2 P1 X3 R20',
  'G43 H2',
  'G54.1 P2',
  'G20',
  'G91',
  'G93 F2',
  'G18',
  'G81 X1 Z-1 R1',
  'G2 X1 Y1 R5',
  'G28 Z0',
  'G53 G0 Z0',
  'G38.3 Z-5 F10',
  'G31 X5. F10.',
  'M70',
  'M72',
  'M6 T3',
  '/G0 X1',
);

const program = fc.array(fc.oneof(doing, randomLine), { maxLength: 8 });

describe('any blocks in any order', () => {
  for (const dialect of Object.values(dialects)) {
    it(`run on numbers and on traced values, ${dialect.name}`, () => {
      const property = fc.property(program, (lines) => {
        const states = [numericStart(), startState('program')] as const;
        for (const state of states) {
          const world = new NumericWorld('mm', ({ to }) => to.map((v) => (typeof v === 'number' ? v : 0)));
          for (const [i, line] of lines.entries()) {
            const block = parseBlock(line, dialect);
            execute(block, i, state, world, dialect.name);
            missingWords(block, { dialect: dialect.name, motion: 'G2', plane: 'G17', feedMode: 'G93' });
            unusedWords(block, dialect.name, 'G81');
          }
          expect(state.position).toHaveLength(axisLetters.length);
          expect(equal(join(state, state, 'same'), state)).toBe(true);
        }
      });
      fc.assert(property, { numRuns: 300 });
    });
  }
});
