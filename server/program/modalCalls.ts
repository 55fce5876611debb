import { empty, same, type Value } from './value.ts';

/** A macro that the control calls of itself from G66 or G66.1 on. */
export interface ModalCall {
  readonly code: 'G66' | 'G66.1';
  /** The macro's number; null where it is computed. */
  readonly callee: string | null;
  /** The line of the G66. */
  readonly line: number;
  /** G66 fills them from its words once, and each call goes on with what the last one left; G66.1 from each block. */
  readonly locals: ReadonlyMap<string, Value>;
  /** L: how often each call runs. */
  readonly repeats: Value;
}

/**
 * The modal calls in force (common practice, no source). The last G66 is the one that is called; what moves in its macro
 * calls the one before it, if there is one, and never the macro itself. A G67 ends the last.
 */
export interface ModalCalls {
  readonly calls: readonly ModalCall[];
  /** False where on some path they are not in force. */
  readonly certain: boolean;
  /** Whether the block that ran last is to be followed by a call. */
  readonly due: 'no' | 'maybe' | 'yes';
  /** Why the macro is not followed; null: nothing speaks against it. */
  readonly lost: string | null;
}

/** Joins two values under a name. */
type Joined = (a: Value, b: Value, name: string) => Value;

/** What holds whichever path was taken. */
export function joinModalCalls(
  a: ModalCalls | null,
  b: ModalCalls | null,
  joined: Joined,
): ModalCalls | null {
  if (a === b) return a;
  const one = a ?? b;
  if (a === null || b === null)
    return one && { ...one, certain: false, due: one.due === 'no' ? 'no' : 'maybe' };
  return {
    calls:
      a.calls.length === b.calls.length
        ? a.calls.map((call, i) => joinCalls(call, b.calls[i], joined))
        : [unclear(a)],
    certain: a.certain && b.certain,
    due: a.due === b.due ? a.due : 'maybe',
    lost: a.lost ?? b.lost,
  };
}

function joinCalls(a: ModalCall, b: ModalCall | undefined, joined: Joined): ModalCall {
  if (a === b || !b) return a;
  if (a.code !== b.code || a.callee !== b.callee || a.line !== b.line) return { ...a, callee: null };
  const locals = new Map<string, Value>();
  for (const name of new Set([...a.locals.keys(), ...b.locals.keys()]))
    locals.set(name, joined(a.locals.get(name) ?? empty, b.locals.get(name) ?? empty, `modal#${name}`));
  return { ...a, locals, repeats: joined(a.repeats, b.repeats, 'modal-repeats') };
}

/** Two paths with other numbers of calls in force: which macro is called is not known. */
function unclear({ calls }: ModalCalls): ModalCall {
  return { ...(calls.at(-1) as ModalCall), callee: null };
}

export function equalModalCalls(a: ModalCalls | null, b: ModalCalls | null): boolean {
  if (a === b) return true;
  if (a === null || b === null || a.calls.length !== b.calls.length) return false;
  if (a.certain !== b.certain || a.due !== b.due || a.lost !== b.lost) return false;
  return a.calls.every((call, i) => equalCalls(call, b.calls[i] as ModalCall));
}

function equalCalls(a: ModalCall, b: ModalCall): boolean {
  if (a.code !== b.code || a.callee !== b.callee || a.line !== b.line || !same(a.repeats, b.repeats))
    return false;
  if (a.locals === b.locals) return true;
  return (
    a.locals.size === b.locals.size &&
    [...a.locals].every(([name, value]) => {
      const other = b.locals.get(name);
      return other !== undefined && same(value, other);
    })
  );
}
