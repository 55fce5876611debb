import { parameterMeaning } from '../program/parameterMeaning.ts';
import type { DialectName } from '../syntax/dialect.ts';

/** A system parameter in a few words, to stand beside it in the text; null for the program's own. */
export function shortMeaning(name: string, dialect: DialectName): string | null {
  const meaning = parameterMeaning(name, dialect);
  if (!meaning) return null;
  const number = Number(name);
  if (number === 5070) return 'touched?';
  if (number >= 5061 && number <= 5069) return `touched ${meaning.title.charAt(0)}`;
  return meaning.title.replace(/,.*$/, '').replace(/^number of the /, '');
}
