import { detectDialect } from '../syntax/detectDialect.ts';
import type { Source } from '../syntax/source.ts';
import type { Block } from '../syntax/tree.ts';

export interface OtherLanguage {
  readonly what: string;
  /** The line that shows it best. */
  readonly line: number;
}

/** How far into a file to look; a file that is another language shows it long before. */
const looked = 3000;
const fewestLines = 8;

const judged = new WeakMap<Source, OtherLanguage | 'ours'>();

/** What a file is in, where it is in none of our dialects; null where it may be in one. */
export function otherLanguage(source: Source): OtherLanguage | null {
  const known = judged.get(source) ?? judgeSource(source) ?? 'ours';
  judged.set(source, known);
  return known === 'ours' ? null : known;
}

function judgeSource(source: Source): OtherLanguage | null {
  const signs = new Map<string, number>();
  let lines = 0;
  let faulty = 0;
  let firstFaulty: number | null = null;
  for (const line of source.otherLines()) {
    if (lines++ >= looked) break;
    const block = source.block(line);
    if (block.text.includes('\u0000')) return unlessNamed(source, { what: 'no text', line });
    for (const sign of signsIn(block)) if (!signs.has(sign)) signs.set(sign, line);
    if (block.faults.length === 0) continue;
    faulty++;
    firstFaulty ??= line;
  }
  const found =
    judge(signs) ??
    (mostlyFaulty(source, lines, faulty) && firstFaulty !== null
      ? { what: 'another language', line: firstFaulty }
      : null);
  return found && unlessNamed(source, found);
}

/** A comment that names the dialect has the last word. */
function unlessNamed(source: Source, found: OtherLanguage): OtherLanguage | null {
  return detectDialect(source.text).commentOverride ? null : found;
}

function mostlyFaulty(source: Source, lines: number, faulty: number): boolean {
  return faulty >= fewestLines && faulty > lines / 2 && faulty > Math.min(source.lineCount, looked) / 3;
}

/** Signs of printer firmware weigh little alone: M codes are free for machine builders; two kinds together are enough. */
function judge(signs: ReadonlyMap<string, number>): OtherLanguage | null {
  const braces = signs.get('braces');
  if (braces !== undefined) return { what: 'the macro language of printer firmware', line: braces };
  const settings = [...signs.keys()].filter((sign) => sign.startsWith('M'));
  const extrudes = signs.get('extruder');
  if ((extrudes !== undefined && settings.length > 0) || settings.length >= 4)
    return { what: 'a file for printer firmware', line: signs.get(settings[0] ?? '') ?? extrudes ?? 0 };
  const other = signs.get('other-control');
  return other === undefined ? null : { what: 'the language of another family of controls', line: other };
}

function signsIn({ text, items }: Block): string[] {
  const signs: string[] = [];
  const bare = text.replace(/\([^)]*\)|;.*/g, '');
  if (
    /^\s*(if|elif|while|set|echo|abort)\b.*\{.*\}|^\s*(var|global)\s+\w+\s*=|[A-Z]\{[^}]*\}|^\s*M291\b.*"/.test(
      bare,
    )
  )
    signs.push('braces');
  if (otherControl.test(bare)) signs.push('other-control');
  if (/\bG[01]\b[^(;]*\bE-?\d*\.?\d/i.test(bare) || /\bE-?\d*\.?\d+\s+F\d/i.test(bare))
    signs.push('extruder');
  const [first] = items.filter((item) => item.kind === 'word');
  if (first?.letter === 'M' && first.value.kind === 'number' && firmwareSettings.has(first.value.value))
    signs.push(`M${first.value.value}`);
  return signs;
}

/** Heads of statements that no RS-274 dialect has. */
const otherControl =
  /^\s*(N?\d+\s+)?(BEGIN PGM\b|END PGM\b|TOUCH PROBE\b|CYCL DEF\b|TCH PROBE\b|TOOL CALL\b|L\s+[XYZ][+-].*\b(FMAX|R0)\b|DEF\s+(REAL|INT|BOOL|STRING|CHAR|AXIS|FRAME)\b|PROC\s+\w+|EXTERN\s+\w+|MSG\s*\("|(IF\b.*)?GOTO[FB]\b|R\d+\s*=|\$[A-Z_]+(\[|\s*=)|.*\bMEAS\s*=\s*[+-]?\d|CYCLE\d+\s*\(|FN\s?\d+\s*:|Q\d+\s*=)/i;

/** Heaters, extruder and configuration (common practice, no source). */
const firmwareSettings = new Set([
  82, 83, 92, 104, 106, 109, 140, 190, 201, 203, 204, 205, 206, 208, 220, 221, 280, 301, 302, 303, 350, 420,
  500, 501, 503, 550, 552, 557, 558, 563, 566, 569, 574, 584, 586, 587, 906, 950,
]);
