import type { Place } from '../syntax/place.ts';
import type { Expression, Setting, Word } from '../syntax/tree.ts';

/** What a line does to the order of execution. Lines that are not listed go on to the next. */
export type Action =
  | { readonly kind: 'jump'; readonly to: number }
  | {
      readonly kind: 'branch';
      readonly condition: Expression | null;
      readonly whenTrue: number;
      readonly whenFalse: number;
      /** Of a repeat: how often its body runs. The condition is null, as the analysis doesn't count. */
      readonly count?: Expression;
    }
  /** One of several lines: a computed GOTO. */
  | { readonly kind: 'choice'; readonly to: readonly number[] }
  | { readonly kind: 'conditional-setting'; readonly condition: Expression; readonly statement: Setting }
  | { readonly kind: 'call'; readonly call: Call; readonly place: Place }
  | { readonly kind: 'return'; readonly values: readonly Expression[]; readonly place: Place }
  | { readonly kind: 'end' };

export type Call =
  | {
      readonly form: 'o-word';
      readonly name: string | null;
      readonly label: Expression | null;
      readonly arguments: readonly Expression[];
    }
  /** G65 and M98: the words of the block, P among them; M97 calls blocks of the program itself. */
  | { readonly form: 'G65' | 'M97' | 'M98'; readonly words: readonly Word[] };

/** Line → what it does; `leaders` are lines that something jumps to. A target of -1 is the end of the procedure. */
export interface FlowActions {
  readonly actions: ReadonlyMap<number, Action>;
  readonly leaders: ReadonlySet<number>;
}

export const procedureEnd = -1;
