import type { InputValue } from './routine.ts';
import type { Form } from './writing.ts';

/**
 * The lines of a routine with a last comment that holds a check sum of them: it tells later whether somebody changed them
 * by hand. `comment` writes text as comment lines.
 */
export function sealed(
  title: string,
  lines: readonly string[],
  comment: (text: string) => readonly string[],
): string[] {
  return [...lines, ...comment(`End of ${title.toLowerCase()}, sum ${checkSum(lines)}.`)];
}

/** FNV-1a, 32 bits, of what a control reads of the lines: blanks, case and N numbers in front are left out. */
export function checkSum(lines: readonly string[]): string {
  let hash = 0x811c9dc5;
  for (const byte of lines.map(asRead).join('\n')) {
    hash ^= byte.charCodeAt(0);
    hash = Math.imul(hash, 0x01000193);
  }
  return (hash >>> 0).toString(16).padStart(8, '0');
}

/** A line as it is compared: what formatting, renumbering and letter case change makes no difference. */
export function asRead(line: string): string {
  return line.replace(/\s+/g, '').toUpperCase().replace(/^N\d+/, '');
}

/** A title and a sum, as they stand in the last comment. */
export function readSeal(line: string): { readonly title: string; readonly sum: string } | null {
  const [, title, sum] = /\(\s*end of ([^,()]+), sum ([0-9a-f]{8})\.\s*\)/i.exec(line) ?? [];
  return title === undefined || sum === undefined ? null : { title, sum: sum.toLowerCase() };
}

/** What the header of a written routine says that it was made from. */
export interface MadeFrom {
  readonly title: string;
  readonly inputs: Readonly<Record<string, InputValue>>;
  readonly units: 'mm' | 'inch';
  readonly form: Form;
}

/** How a header begins, for a quick look at a line. */
export const headerStart = /\(\s*([^(),]+), written by probewright\./i;

/** Reads the comment lines of a header, brackets and all; null where they are of no routine, or somebody changed the inputs. */
export function readHeader(lines: readonly string[]): MadeFrom | null {
  const title = headerStart.exec(lines[0] ?? '')?.[1];
  const text = lines.map((line) => line.replace(/^[^(]*\(|\)[^)]*$/g, '')).join(' ');
  const [, said, units, form] =
    /\binputs: (.*?), units (mm|inch), dialect \w+, form (inline|subroutine)\./i.exec(text) ?? [];
  if (title === undefined || said === undefined) return null;
  const pairs = said.split(', ').map((pair): [string, string] => {
    const blank = pair.indexOf(' ');
    return [pair.slice(0, blank), pair.slice(blank + 1)];
  });
  return {
    title,
    inputs: Object.fromEntries(pairs),
    units: units?.toLowerCase() === 'inch' ? 'inch' : 'mm',
    form: form?.toLowerCase() === 'subroutine' ? 'subroutine' : 'inline',
  };
}
