import { parameterMeaning } from '../program/parameterMeaning.ts';
import { isLocal } from '../program/parameters.ts';
import type { Dialect } from '../syntax/dialect.ts';
import { plainName } from '../syntax/expressions.ts';
import type { Name } from './names.ts';
import { shownParameter } from './parameterName.ts';
import type { Refusal } from './renameTarget.ts';

/** A name that somebody typed, as the dialect has it: `written` as it is to stand in the text, `name` as it compares. */
export interface NewName {
  readonly name: string;
  readonly written: string;
}

/** The new name with its decoration off, or why it can't be one of that kind. */
export function newName(typed: string, name: Name, dialect: Dialect): NewName | Refusal {
  const written = undecorated(typed.trim(), name.kind);
  const isNumber = /^\d+$/.test(written);
  if (isNumber) return numbered(Number(written), name, dialect);
  if (name.kind === 'block' || !dialect.namedParameters)
    return { refused: `${quoted(typed)} is no number, and names of this kind are numbers here.` };
  if (
    !/^[^<>()[\]#;=%\p{Cc}]+$/u.test(written) ||
    plainName(written) === '' ||
    /^\d/.test(plainName(written))
  )
    return {
      refused: `${quoted(typed)} can't be a name: it begins with a letter or _, and has no brackets, #, ; = or %.`,
    };
  const plain = plainName(written);
  if (name.kind !== 'parameter') return { name: plain, written };
  return parameterProblem(plain, name, dialect) ?? { name: plain, written };
}

function undecorated(typed: string, kind: Name['kind']): string {
  const bare = kind === 'parameter' ? typed.replace(/^#\s*/, '') : typed.replace(/^[onp]\s*(?=[<\d])/i, '');
  return bare.replace(/^<(.*)>$/, '$1').trim();
}

/** The largest number that a name of each kind can have; the trade's programs stay far below it. */
const largest = 99_999_999;

function numbered(number: number, name: Name, dialect: Dialect): NewName | Refusal {
  const found: NewName = { name: String(number), written: String(number) };
  if (number === 0 || number > largest) return { refused: `${number} is out of range.` };
  if (
    name.kind === 'block' &&
    dialect.lineNumberDigits !== null &&
    found.name.length > dialect.lineNumberDigits
  )
    return { refused: `N numbers have ${dialect.lineNumberDigits} digits at most.` };
  return name.kind === 'parameter' ? (parameterProblem(found.name, name, dialect) ?? found) : found;
}

function parameterProblem(
  to: string,
  { name: from }: Extract<Name, { kind: 'parameter' }>,
  dialect: Dialect,
): Refusal | null {
  const [shown, old] = [shownParameter(to), shownParameter(from)];
  const meaning = parameterMeaning(shown, dialect.name);
  if (meaning) return { refused: `${shown} is the control's own: ${meaning.title}.` };
  const [local, wasLocal] = [isLocal(to, dialect.name), isLocal(from, dialect.name)];
  if (local !== wasLocal) {
    const said = (own: boolean) => (own ? 'local to its routine' : 'shared by all routines');
    return { refused: `${shown} would be ${said(local)}, and ${old} is ${said(wasLocal)}.` };
  }
  if (local || !/^\d+$/.test(to)) return null;
  const kept = keepingOf(Number(to), dialect);
  if (kept === null)
    return { refused: `${shown} is not among the numbers that programs have for themselves.` };
  return /^\d+$/.test(from) && kept !== keepingOf(Number(from), dialect)
    ? { refused: `${shown} and ${old} differ in whether they outlast switching off.` }
    : null;
}

/** Numbers free for programs: to 5000 in the standard (NISTIR 6556, Table 2); two ranges of the macro family (common practice, no source). */
function keepingOf(number: number, { name }: Dialect): 'kept' | 'lost' | 'unknown' | null {
  if (name === 'rs274ngc') return number <= 5000 ? 'unknown' : null;
  if (number >= 100 && number <= 199) return 'lost';
  return number >= 500 && number <= 999 ? 'kept' : null;
}

function quoted(text: string): string {
  return `“${text.length > 40 ? `${text.slice(0, 40)}…` : text}”`;
}
