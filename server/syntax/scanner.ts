import { code, isBlank, isLetter } from './charCodes.ts';
import type { Dialect } from './dialect.ts';
import type { Fault, Span } from './tree.ts';

/** Brackets and `#` within each other, and the height of an expression: far above what a line of 256 holds. */
const deepestNesting = 200;
const tallestTree = 400;
/** More faults than this say nothing new about one line. */
const mostFaults = 50;
const longestDetail = 60;
const mostLookahead = 20_000;

/** A place in one line, moved on by the readers; blanks are skipped wherever something is looked for. */
export class Scanner {
  at = 0;
  readonly faults: Fault[] = [];
  /** Characters that may still be looked ahead at for what a broken part lacks: keeps a broken line linear. */
  lookahead = mostLookahead;
  /** Set behind what is no code at all, such as prose: more faults in the line would say the same. */
  quiet = false;
  /** Height of the expression read last; see `limitHeight`. */
  height = 0;
  #depth = 0;
  #gaveUp = false;

  constructor(
    readonly text: string,
    readonly dialect: Dialect,
    readonly end: number = text.length,
  ) {}

  /** The next code unit that is no blank, NaN at the end; moves up to it. */
  peek(): number {
    while (this.at < this.end && isBlank(this.text.charCodeAt(this.at))) this.at++;
    return this.at < this.end ? this.text.charCodeAt(this.at) : Number.NaN;
  }

  /** The first code unit at or after `from` that is no blank, NaN at the end; does not move. */
  look(from: number): number {
    const at = this.skip(from);
    return at < this.end ? this.text.charCodeAt(at) : Number.NaN;
  }

  /** Where the blanks that begin at `from` end. */
  skip(from: number): number {
    let at = from;
    while (at < this.end && isBlank(this.text.charCodeAt(at))) at++;
    return at;
  }

  /** Where `word` (capitals) ends if it stands at or after `from`, blanks between its letters allowed; else -1. */
  match(word: string, from: number): number {
    let at = from;
    for (let index = 0; index < word.length; index++) {
      at = this.skip(at);
      if (at >= this.end) return -1;
      const unit = this.text.charCodeAt(at);
      const wanted = word.charCodeAt(index);
      if (unit !== wanted && !(isLetter(wanted) && unit === (wanted | 0x20))) return -1;
      at++;
    }
    return at;
  }

  fault(reason: Fault['code'], span: Span, detail?: string): void {
    if (this.#gaveUp || this.quiet || this.faults.length >= mostFaults) return;
    const fault = { code: reason, start: span.start, end: span.end };
    this.faults.push(detail === undefined ? fault : { ...fault, detail: shortened(detail) });
  }

  /** False, with a fault and the rest of the line given up, where the nesting gets too deep. */
  enter(): boolean {
    this.#depth++;
    if (this.#depth > deepestNesting) this.giveUp(this.at);
    return !this.#gaveUp;
  }

  leave(): void {
    this.#depth--;
  }

  /** Keeps trees low enough that whoever walks them may recurse. */
  limitHeight(height: number, start: number): boolean {
    this.height = height;
    if (height > tallestTree) this.giveUp(start);
    return !this.#gaveUp;
  }

  /** Forgets the faults since there were `count`. */
  forgetFaults(count: number): void {
    if (!this.#gaveUp) this.faults.length = count;
  }

  private giveUp(start: number): void {
    this.fault('nested-too-deep', { start, end: this.end });
    this.#gaveUp = true;
    this.at = this.end;
  }
}

/** A scanner on a line: a byte-order mark at its start and the end-of-tape mark at its end are no content. */
export function scanLine(text: string, dialect: Dialect): Scanner {
  let content = text.length;
  while (content > 0 && isBlankOrEnd(text.charCodeAt(content - 1))) content--;
  const mark = text.indexOf(endOfTape, content);
  const end = mark < 0 ? text.length : content;
  const scanner = new Scanner(text, dialect, end);
  if (text.charCodeAt(0) === code.byteOrderMark) scanner.at = 1;
  return scanner;
}

const endOfTape = String.fromCharCode(code.endOfTape);

function isBlankOrEnd(unit: number): boolean {
  return isBlank(unit) || unit === code.endOfTape;
}

function shortened(text: string): string {
  return text.length <= longestDetail ? text : `${text.slice(0, longestDetail)}…`;
}
