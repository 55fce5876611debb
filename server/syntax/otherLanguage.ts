import { dialects } from './dialects.ts';
import { type FirstLine, firstLines, withoutComments } from './firstLines.ts';
import { parseBlock } from './parseBlock.ts';
import { SourceText } from './sourceText.ts';
import { StartMemory } from './startMemory.ts';

/**
 * Why a file is in another language than ours, in plain words ("has expressions in braces (line 3)"); null where it
 * is not. Rules then say so once and nothing else. The signs are common practice, no source.
 */
export function otherLanguage(text: SourceText | string): string | null {
  const source = typeof text === 'string' ? SourceText.from(text) : text;
  return judged.of(source, () => judge(source));
}

const judged = new StartMemory<string | null>();

function judge(source: SourceText): string | null {
  if (isBinary(source)) return 'is no text: it holds control characters';
  const lines = [...firstLines(source)];
  return bySigns(lines) ?? byFaults(lines);
}

interface Language {
  readonly what: string;
  /** One line with any of these is enough. */
  readonly sure?: RegExp;
  /** Or lines with this, of as many different matches as `needed`. */
  readonly likely?: { readonly pattern: RegExp; readonly needed: number };
}

const languages: readonly Language[] = [
  {
    what: 'has expressions in braces',
    sure: /\b(if|elif|while|echo|abort)\b[^"]*\{[^}]*\}|\{%|\{[^{}]*[a-z_]{2}[^{}]*\}/i,
    likely: { pattern: /\{[^}]*\}/, needed: 2 },
  },
  {
    what: 'has conditions of another language',
    sure: /^\s*((if|elif|while)\s+[!(]*[a-z_]\w*\.[a-z]|while\s+(true|iterations)\b)/i,
  },
  { what: 'declares variables by name', sure: /^\s*(var|global|set)\s+[a-z_.][\w.]*\s*=/i },
  {
    what: 'has quoted text behind a code',
    sure: /\bM\d{3,4}\b[^"]*"[^"]*"|^\s*echo\b[^"]*"/i,
    likely: { pattern: /\b[GMT]\d+(\.\d+)?\b[^"]*"[^"]*"/i, needed: 2 },
  },
  {
    what: 'is in a conversational format',
    sure: /^\s*\d*\s*BEGIN\s+PGM\b/i,
    likely: {
      pattern:
        /^\s*(\d+\s+)?(TOOL CALL|TOOL DEF|CYCL DEF|TCH PROBE|BLK FORM|CALL LBL|LBL \d|END PGM|FN ?\d+:|(L|C|CC|CR|CT)\s+[A-Z]{1,2}[+-])/i,
      needed: 2,
    },
  },
  {
    what: 'ends its blocks with "*"',
    likely: { pattern: /^.*[\w.][ \t]*\*\s*$/, needed: 2 },
  },
  {
    what: 'has variables and jumps of another language',
    sure: /^\s*(N\d+\s*)?(PROC\s+\w|DEF\s+(REAL|INT|BOOL|CHAR|STRING|AXIS)\b)/i,
    likely: {
      pattern:
        /\b(R|VC)\d+\s*=|\b[XYZ]\s*=\s*(R\d|[A-Z]{2}|\()|\bCALL\s+O[A-Z\d]|\bGOTO[FB]\b|\$[A-Z]{1,3}_\w+|\bCYCLE\d+\b|\bMSG$|\bIF\b[^[\]]*(==|<>)|\bEXTERN\b/i,
      needed: 2,
    },
  },
  {
    what: 'has heating, extruder or set-up codes of a printer',
    likely: {
      pattern:
        /^\s*(M(104|109|140|190)(?=.*\bS\d)|M(851|50[0-3]|558|569|574|584|906)\b|G29\b|G92\s+E|G[01]\b(?=.*\bE-?[\d.]))/i,
      needed: 2,
    },
  },
];

function bySigns(lines: readonly FirstLine[]): string | null {
  const matches = new Map<Language, Set<string>>();
  for (const { index, written, isPlain } of lines) {
    if (isPlain) continue;
    const code = withoutComments(written);
    for (const language of languages) {
      const found = (reason: string) => `${reason} (line ${index + 1})`;
      if (language.sure?.test(code)) return found(language.what);
      const likely = language.likely?.pattern.exec(code)?.[0];
      if (likely === undefined) continue;
      const known = matches.get(language) ?? new Set();
      matches.set(language, known.add(likely.replace(/\s+/g, ' ').trim().toUpperCase()));
      if (known.size >= (language.likely?.needed ?? Number.POSITIVE_INFINITY)) return found(language.what);
    }
  }
  return null;
}

/** Lines that decide whether a text is made of blocks at all. */
const fewestLines = 20;
const mostLines = 300;
const faultyShare = 0.8;

function byFaults(lines: readonly FirstLine[]): string | null {
  let written = 0;
  let faulty = 0;
  for (const line of lines) {
    if (written === mostLines) break;
    if (!line.isPlain && withoutComments(line.written).trim() === '') continue;
    written++;
    if (!line.isPlain && isFaulty(line.written)) faulty++;
  }
  return written >= fewestLines && faulty >= written * faultyShare
    ? 'is no program: most of its lines are no blocks'
    : null;
}

function isFaulty(line: string): boolean {
  return Object.values(dialects).every((dialect) => parseBlock(line, dialect).faults.length > 0);
}

/** Characters that a binary file is looked at for. */
const sampleLength = 4096;

function isBinary(text: SourceText): boolean {
  const sample = text.start(sampleLength);
  if (sample.includes('\0')) return true;
  const odd = sample.match(/[\x01-\x08\x0e-\x19\x1b-\x1f\ufffd]/g)?.length ?? 0;
  return odd > sample.length / 10;
}
