import { evaluate } from '../../server/program/evaluate.ts';
import { type Ending, execute } from '../../server/program/execute.ts';
import type { State } from '../../server/program/state.ts';
import type { Value } from '../../server/program/value.ts';
import type { DialectName } from '../../server/syntax/dialect.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import { NumericWorld, numericStart } from './numericWorld.ts';

export interface Ran {
  readonly state: State;
  readonly world: NumericWorld;
  readonly endings: readonly Ending[];
  /** What `#…` or any other value reads after the lines. */
  read(value: string): Value;
  /** X, Y, Z … rounded to a millionth. */
  at(...axes: readonly number[]): readonly Value[];
}

/** Runs the lines of a text one after the other on a world of numbers, no flow. */
export function runLines(
  text: string,
  dialect: DialectName = 'rs274ngc',
  state: State = numericStart(),
  world: NumericWorld = new NumericWorld(),
): Ran {
  const endings = text
    .split('\n')
    .map((line, i) => execute(parseBlock(line, dialects[dialect]), i, state, world, dialect));
  return {
    state,
    world,
    endings,
    read: (value) => {
      const [word] = parseBlock(`X${value}`, dialects[dialect]).items;
      if (word?.kind !== 'word') throw new Error(value);
      return rounded(evaluate(word.value, { state, world, dialect, line: 999 }));
    },
    at: (...axes) => axes.map((i) => rounded(state.position[i] ?? Number.NaN)),
  };
}

function rounded(value: Value): Value {
  return typeof value === 'number' ? Math.round(value * 1e6) / 1e6 + 0 : value;
}
