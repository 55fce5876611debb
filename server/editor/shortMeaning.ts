import { parameterMeaning } from '../program/parameterMeaning.ts';
import type { DialectName } from '../syntax/dialect.ts';

/** A system parameter in a few words, to stand beside it in the text; null for the program's own. */
export function shortMeaning(name: string, dialect: DialectName): string | null {
  const meaning = parameterMeaning(name, dialect);
  if (!meaning) return null;
  const number = Number(name);
  const axis = /\b([XYZABCUVW])\b/.exec(meaning.title)?.[1] ?? '';
  const short = shorter.find(({ from, to }) => number >= from && number <= to);
  return short?.words.replace('*', axis) ?? meaning.title.replace(/,.*$/, '');
}

/** `*` stands for the axis. What these numbers hold in full: `parameterMeaning.ts`. */
const shorter: readonly { readonly from: number; readonly to: number; readonly words: string }[] = [
  { from: 3000, to: 3000, words: 'alarm' },
  { from: 3006, to: 3006, words: 'message' },
  { from: 5001, to: 5009, words: '* at block end' },
  { from: 5021, to: 5029, words: 'machine *' },
  { from: 5041, to: 5049, words: 'work *' },
  { from: 5061, to: 5069, words: 'touched *' },
  { from: 5070, to: 5070, words: 'touched?' },
  { from: 5220, to: 5220, words: 'work offset in force' },
  { from: 5400, to: 5400, words: 'tool' },
  { from: 5410, to: 5410, words: 'tool diameter' },
  { from: 5420, to: 5428, words: 'work *' },
];
