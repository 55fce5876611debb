import type { DialectName } from './dialect.ts';
import { dialects } from './dialects.ts';
import { mayHoldDirective, readDirective } from './directives.ts';
import { bareLine, firstLines } from './firstLines.ts';
import { parseBlock } from './parseBlock.ts';
import { SourceText } from './sourceText.ts';
import { StartMemory } from './startMemory.ts';

export interface DetectedDialect {
  readonly dialect: DialectName;
  /** In plain words, with the line: "O-word flow on line 3". */
  readonly reason: string;
  /** A comment in the file names the dialect. */
  readonly commentOverride: boolean;
}

interface Sign {
  readonly dialect: DialectName;
  readonly weight: number;
  readonly what: string;
  readonly pattern: RegExp;
  /** Looked for in the line as it stands, comments too. */
  readonly inComments?: true;
}

/** What tells the dialects apart (flow above all, which the other dialect can't read), on a line without comments, blanks and in capitals. Common practice, no source. */
const signs: readonly Sign[] = [
  sign(
    'rs274ngc',
    12,
    'O-word flow',
    /^(N\d*)?O(<[^>]*>|\d+|#[^=]*|\[.*\])(SUB|ENDSUB|CALL|RETURN|IF|ELSE|ENDIF|WHILE|ENDWHILE|DO|REPEAT|ENDREPEAT|BREAK|CONTINUE)/,
  ),
  sign('rs274ngc', 5, 'a named parameter', /#</),
  sign('rs274ngc', 4, 'a G38 touch', /G0*38\.[2-5]/),
  sign('rs274ngc', 2, 'parameter 5070', /#5070(?!\d)/),
  sign('rs274ngc', 2, 'the power operator **', /\*\*/),
  sign('rs274ngc', 2, 'a polar position', /[@^][-+]?[\d.#[]/),
  { ...sign('rs274ngc', 2, 'a comment that prints', /\(\s*(DEBUG|PRINT|LOG|ABORT)\s*,/i), inComments: true },
  sign('macro', 9, 'IF … GOTO', /IF\[.*\]GOTO/),
  sign('macro', 9, 'IF … THEN', /IF\[.*\]THEN/),
  sign('macro', 9, 'WHILE … DO', /WHILE\[.*\]DO\d/),
  sign('macro', 5, 'a GOTO', /^(\/?N\d*)?GOTO[\d#[]/),
  sign('macro', 4, 'a macro call G65', /G0*65(?![\d.])/),
  sign('macro', 4, 'a skip move G31', /G0*31(?!\d)/),
  sign('macro', 4, 'an alarm #3000', /#3000=/),
  sign('macro', 4, 'an output command', /DPRNT\[|^POPEN|^PCLOS/),
  sign('macro', 3, 'a program number', /^[O:]\d+$/),
  sign('macro', 2, 'an assignment without brackets', /#\d+=-?[#\d.]+[-+*/]/),
  sign('macro', 2, 'M98 or M99', /M9[89](?!\d)/),
];

/** The dialect of a file by the forms that it uses; `(probewright: dialect macro)` overrides them. */
export function detectDialect(text: SourceText | string): DetectedDialect {
  const source = typeof text === 'string' ? SourceText.from(text) : text;
  return detected.of(source, () => detect(source));
}

const detected = new StartMemory<DetectedDialect>();

function detect(text: SourceText): DetectedDialect {
  const score: Record<DialectName, number> = { rs274ngc: 0, macro: 0 };
  const found = new Map<Sign, number>();
  for (const { index, written, isPlain } of firstLines(text)) {
    if (isPlain) continue;
    const line = index + 1;
    const named = namedDialect(written);
    if (named) return { dialect: named, reason: `named by a comment on line ${line}`, commentOverride: true };
    const bare = bareLine(written);
    for (const candidate of signs) {
      if (found.has(candidate) || !candidate.pattern.test(candidate.inComments ? written : bare)) continue;
      found.set(candidate, line);
      score[candidate.dialect] += candidate.weight;
    }
  }
  const dialect = score.macro > score.rs274ngc ? 'macro' : 'rs274ngc';
  return { dialect, reason: reasonFor(dialect, found), commentOverride: false };
}

function sign(dialect: DialectName, weight: number, what: string, pattern: RegExp): Sign {
  return { dialect, weight, what, pattern };
}

function reasonFor(dialect: DialectName, found: ReadonlyMap<Sign, number>): string {
  let best: Sign | null = null;
  for (const candidate of found.keys()) {
    if (candidate.dialect === dialect && candidate.weight > (best?.weight ?? 0)) best = candidate;
  }
  if (best === null) return 'nothing in the file is particular to a dialect';
  return `${best.what} on line ${found.get(best)}`;
}

function namedDialect(line: string): DialectName | null {
  if (!mayHoldDirective.test(line)) return null;
  for (const item of parseBlock(line, dialects.rs274ngc).items) {
    const directive = item.kind === 'comment' ? readDirective(item.text) : null;
    if (directive?.kind === 'dialect') return directive.dialect;
  }
  return null;
}
