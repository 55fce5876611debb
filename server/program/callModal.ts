import type { Block } from '../syntax/tree.ts';
import { evaluate, type Scope } from './evaluate.ts';
import { macroArguments } from './macroArguments.ts';
import type { ModalCall, ModalCalls } from './modalCalls.ts';
import { maskOf } from './modes.ts';
import type { ReadBlock } from './readBlock.ts';
import type { State } from './state.ts';
import { empty, isEmpty, isNumber, type Value } from './value.ts';

/** The modal call that a block starts, its words read before anything takes effect. */
export function modalCallIn(block: Block, read: ReadBlock, scope: Scope): ModalCall | null {
  const code = read.codes.find((each) => each.code === 'G66' || each.code === 'G66.1')?.code;
  if (scope.dialect !== 'macro' || (code !== 'G66' && code !== 'G66.1')) return null;
  const words = wordsOf(block);
  const wordValue = (letter: string) => {
    const word = words.find((each) => each.letter === letter);
    return word && evaluate(word.value, scope);
  };
  const p = wordValue('P');
  return {
    code,
    callee: p !== undefined && isNumber(p) ? String(Math.round(p)) : null,
    line: scope.line,
    locals: argumentsIn(block, scope),
    repeats: wordValue('L') ?? 1,
  };
}

/** Puts a new call in force, or ends the last where the block holds a G67. */
export function applyModalCall(started: ModalCall | null, read: ReadBlock, { state }: Scope): void {
  const { modal } = state;
  if (read.codes.some(({ code }) => code === 'G67')) setCalls(state, modal?.calls.slice(0, -1) ?? []);
  if (started) setCalls(state, [...(state.modal?.calls ?? []).slice(-mostNested), started]);
}

/** A new macro may be one that can be followed. */
function setCalls(state: State, calls: readonly ModalCall[]): void {
  state.modal = calls.length === 0 ? null : { calls, certain: true, due: 'no', lost: null };
  state.modes.macroMode = maskOf('macroMode', calls.at(-1)?.code ?? 'G67');
}

const mostNested = 7;

/** Whether a macro is to be called, for certain or perhaps, before the next block. */
export function isCallDue({ modal }: State): boolean {
  return modal !== null && modal.due !== 'no';
}

/** To be told that the axes moved. */
export function callAfterMotion({ state }: Scope): void {
  const { modal } = state;
  if (modal) state.modal = { ...modal, due: modal.certain ? 'yes' : 'maybe' };
}

/** Whether a block under G66.1 is nothing but arguments: then none of its words takes effect. */
export function isOnlyArguments(block: Block, { codes, words }: ReadBlock, { modal }: State): boolean {
  if (modal?.calls.at(-1)?.code !== 'G66.1' || (codes.length === 0 && words.size === 0)) return false;
  const holdsOther = block.items.some(({ kind }) => kind === 'setting' || kind === 'flow');
  return !holdsOther && !codes.some(({ code }) => steering.has(code));
}

const steering = new Set('G65 G66 G66.1 G67 M0 M1 M2 M30 M96 M97 M98 M99'.split(' '));

/** Hands the words of a block under G66.1 to the macro. */
export function callWithWords(block: Block, scope: Scope): void {
  const { modal } = scope.state;
  const last = modal?.calls.at(-1);
  if (!modal || !last) return;
  const calls = [...modal.calls.slice(0, -1), { ...last, locals: argumentsIn(block, scope) }];
  scope.state.modal = { ...modal, calls, due: modal.certain ? 'yes' : 'maybe' };
}

function argumentsIn(block: Block, scope: Scope): ReadonlyMap<string, Value> {
  const locals = new Map<string, Value>();
  for (const [number, { value }] of macroArguments(wordsOf(block))) {
    const given = evaluate(value, scope);
    if (!isEmpty(given)) locals.set(String(number), given);
  }
  return locals;
}

function wordsOf({ items }: Block) {
  return items.filter((item) => item.kind === 'word');
}

/** What held in the block that moved, for `leaveModalCall`. */
export interface ModalCaller {
  readonly modal: ModalCalls;
  readonly kept: Pick<State, 'locals' | 'unsetLocal' | 'saved'>;
}

/** Goes into the macro that is due: its own locals, and the modal calls before it; null: none is due. */
export function enterModalCall(state: State): ModalCaller | null {
  const { modal, locals, unsetLocal, saved } = state;
  const last = modal?.calls.at(-1);
  if (!modal || !last) return null;
  const before = modal.calls.slice(0, -1);
  state.modal = before.length === 0 ? null : { ...modal, calls: before, due: 'no', lost: null };
  state.locals = last.locals;
  state.owned.locals = false;
  state.unsetLocal = empty;
  state.saved = null;
  return { modal, kept: { locals, unsetLocal, saved } };
}

/** Back behind the block that moved. What the macro did to modal calls of its own ends with it. */
export function leaveModalCall(state: State, { modal, kept }: ModalCaller): void {
  const last = modal.calls.at(-1);
  const calls = last ? [...modal.calls.slice(0, -1), { ...last, locals: state.locals }] : modal.calls;
  Object.assign(state, kept);
  state.owned.locals = false;
  state.modal = { ...modal, calls, due: 'no' };
  state.modes.macroMode = maskOf('macroMode', last?.code ?? 'G67');
}
