import { evaluate, type Scope } from '../program/evaluate.ts';
import { macroArguments } from '../program/macroArguments.ts';
import { type State, setParameter } from '../program/state.ts';
import { empty, isEmpty, type Value } from '../program/value.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { Call } from './actions.ts';

/** The name or number of what is called; null where it is computed from something unknown, or is no program. */
export function calleeOf(call: Call, scope: Scope): string | null {
  if (call.form === 'o-word') {
    if (call.name !== null) return call.name;
    const value = call.label ? evaluate(call.label, scope) : null;
    return typeof value === 'number' ? String(Math.round(value)) : null;
  }
  if (call.form === 'M97') return null;
  const p = call.words.find((w) => w.letter === 'P');
  const value = p ? evaluate(p.value, scope) : null;
  return typeof value === 'number' ? String(Math.round(value)) : null;
}

/** What a caller gets back when the called procedure ends. */
export type Caller = Pick<State, 'locals' | 'saved' | 'unsetLocal'>;

export function callerOf(state: State): Caller {
  state.owned.locals = false;
  return { locals: state.locals, saved: state.saved, unsetLocal: state.unsetLocal };
}

/** What a local holds that no argument set: 0 in an O-word subroutine, empty in a macro (common practice, no source). */
const unsetIn = { 'o-word': 0, G65: empty, M97: null, M98: null } as const;

/** M98 of the macro family hands on the caller's locals as they are. */
export function sharesLocals({ form }: Call, dialect: DialectName): boolean {
  return form === 'M98' && dialect === 'macro';
}

/** Puts the arguments into the locals of the called procedure. */
export function bindArguments(call: Call, scope: Scope): void {
  const { state } = scope;
  if (sharesLocals(call, scope.dialect)) return;
  const locals = new Map<string, Value>();
  if (call.form === 'o-word') {
    for (const [i, argument] of call.arguments.slice(0, 30).entries())
      locals.set(String(i + 1), evaluate(argument, scope));
  } else if (call.form === 'G65') {
    for (const [number, word] of macroArguments(call.words)) {
      const value = evaluate(word.value, scope);
      if (!isEmpty(value)) locals.set(String(number), value);
    }
  }
  state.locals = locals;
  state.owned.locals = true;
  state.unsetLocal = unsetIn[call.form];
  state.saved = null;
}

/** Back in the caller: its own locals again, what was returned kept. */
export function unbind(call: Call, state: State, caller: Caller, dialect: DialectName): void {
  if (sharesLocals(call, dialect)) return;
  state.locals = caller.locals;
  state.owned.locals = false;
  state.unsetLocal = caller.unsetLocal;
  state.saved = caller.saved;
  if (call.form === 'o-word') setParameter(state, 'globals', '_value', state.returned);
}
