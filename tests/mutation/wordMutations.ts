import type { Profile } from '../../server/profile/profile.ts';
import type { Block, Expression, Span } from '../../server/syntax/tree.ts';
import { conditionsOf, expressionsIn, within } from './expressionParts.ts';
import { codesOf, isPlainMove, isTouch, type Lines, wordsOf } from './lines.ts';
import type { LineEdit } from './mutations.ts';
import { isOfResult, namesInResults } from './resultArithmetic.ts';

/** Something in a block to be written otherwise. */
interface Slip extends Span {
  readonly kind: string;
  readonly put: string;
}

/** Single words, signs and numbers that somebody got wrong. */
export function* wordMutations(
  lines: Lines,
  profile: Profile,
  results: readonly string[],
): Iterable<LineEdit> {
  const { texts, blocks } = lines;
  const names = namesInResults(lines, results);
  for (const [line, block] of blocks.entries()) {
    const text = texts[line] ?? '';
    for (const { kind, start, end, put } of slipsOf(block, text, profile, names)) {
      const now = `${text.slice(0, start)}${put}${text.slice(end)}`;
      yield { kind, from: line, to: line + 1, lines: now.trim() === '' ? [] : [now] };
    }
  }
}

function* slipsOf(block: Block, text: string, profile: Profile, names: ReadonlySet<string>): Iterable<Slip> {
  yield* codes(block);
  yield* words(block, text);
  for (const condition of conditionsOf(block)) yield* turnedTests(condition, text);
  for (const item of block.items) {
    const isResult = isOfResult(item, codesOf(block), names);
    for (const part of expressionsIn(item)) {
      for (const slip of arithmetic(part, text))
        yield isResult ? slip : { ...slip, kind: `${slip.kind} of a way` };
      if (part.kind === 'number') yield* diameters(part, profile);
    }
  }
}

const dropped = new Set(['G90', 'G91', 'G20', 'G21']);
const swapped: Readonly<Record<string, readonly [kind: string, put: string]>> = {
  G90: ['G91 for G90', 'G91'],
  G91: ['G90 for G91', 'G90'],
  G20: ['G21 for G20', 'G21'],
  G21: ['G20 for G21', 'G20'],
  G54: ['other work offset', 'G55'],
  'G38.2': ['no alarm', 'G38.3'],
  'G38.4': ['no alarm', 'G38.5'],
};

function* codes(block: Block): Iterable<Slip> {
  for (const word of wordsOf(block)) {
    if (word.value.kind !== 'number') continue;
    const code = `${word.letter}${word.value.value}`;
    const { start, end } = word;
    if (dropped.has(code)) yield { kind: `${code} deleted`, start, end, put: '' };
    const other = swapped[code];
    if (other) yield { kind: other[0], start, end, put: other[1] };
    if (!codesOf(block).includes('G10')) continue;
    if (code === 'L2') yield { kind: 'L20 for L2', start, end, put: 'L20' };
    if (code === 'L20') yield { kind: 'L2 for L20', start, end, put: 'L2' };
    if (word.letter === 'P') yield { kind: 'other work offset', start, end, put: `P${word.value.value + 1}` };
  }
}

/** Feeds ten times too high; the way of a move or touch turned round. */
function* words(block: Block, text: string): Iterable<Slip> {
  const moves = isTouch(block) || isPlainMove(block);
  for (const { letter, value, start, end } of wordsOf(block)) {
    const written = text.slice(value.start, value.end);
    if (letter === 'F' && value.kind === 'number')
      yield { kind: 'feed raised', start, end, put: `F${10 * value.value}` };
    if (!moves || !/^[XYZ]$/.test(letter) || value.kind !== 'number' || value.value === 0) continue;
    const put = written.startsWith('-') ? written.slice(1) : `-${written.replace(/^\+/, '')}`;
    const kind = 'sign flipped of a way';
    yield { kind, start: value.start, end: value.end, put };
  }
}

const opposites: Readonly<Record<string, string>> = {
  EQ: 'NE',
  NE: 'EQ',
  LT: 'GT',
  GT: 'LT',
  LE: 'GE',
  GE: 'LE',
};

function* turnedTests(condition: Expression, text: string): Iterable<Slip> {
  for (const part of within(condition)) {
    if (part.kind !== 'binary') continue;
    const put = opposites[part.operator];
    if (put !== undefined) yield { kind: 'test turned round', ...operatorOf(part, text), put };
  }
}

/** Signs and halves: of a datum or a result, or of the way that the tip goes. */
function* arithmetic(part: Expression, text: string): Iterable<Slip> {
  if (part.kind === 'binary') {
    const operator = operatorOf(part, text);
    if (part.operator === '+') yield { kind: 'sign flipped', ...operator, put: '-' };
    if (part.operator === '-') yield { kind: 'sign flipped', ...operator, put: '+' };
    const halves =
      (part.operator === '/' && isLiteral(part.right, 2)) ||
      (part.operator === '*' && isLiteral(part.right, 0.5));
    if (halves) yield { kind: 'half lost', start: operator.start, end: part.right.end, put: '' };
  }
  if (part.kind === 'unary' && part.operator === '-')
    yield { kind: 'sign flipped', start: part.start, end: part.operand.start, put: '' };
  if (part.kind === 'parameter' && 'number' in part.index && /^506[12]$/.test(`${part.index.number}`))
    yield {
      kind: 'other axis',
      start: part.start,
      end: part.end,
      put: part.index.number === 5061 ? '#5062' : '#5061',
    };
}

/** The diameter for the radius, the radius for the diameter, the actual for the effective. */
function* diameters(part: Expression & { kind: 'number' }, { probe }: Profile): Iterable<Slip> {
  const effective = probe.calibration?.effectiveDiameter ?? null;
  const known: readonly number[] = [probe.tipDiameter, ...(effective === null ? [] : [effective])];
  for (const unit of [1, 25.4]) {
    const mm = Math.abs(part.value) * unit;
    const is = (length: number) => Math.abs(mm - length) < 2e-4 * unit;
    const put = (length: number) => `${Math.sign(part.value) * Number((length / unit).toFixed(5))}`;
    for (const diameter of known) {
      if (is(diameter)) yield { kind: 'radius for the diameter', ...spanOf(part), put: put(diameter / 2) };
      if (is(diameter / 2)) yield { kind: 'diameter for the radius', ...spanOf(part), put: put(diameter) };
    }
    if (effective === null || effective === probe.tipDiameter) continue;
    if (is(effective))
      yield { kind: 'actual for the effective', ...spanOf(part), put: put(probe.tipDiameter) };
    if (is(effective / 2))
      yield { kind: 'actual for the effective', ...spanOf(part), put: put(probe.tipDiameter / 2) };
  }
}

/** Where the operator stands between its operands: these have their brackets in their spans. */
function operatorOf(part: Expression & { kind: 'binary' }, text: string): Span {
  const between = text.slice(part.left.end, part.right.start).toUpperCase();
  const at = part.left.end + Math.max(0, between.indexOf(part.operator));
  return { start: at, end: at + part.operator.length };
}

function isLiteral(part: Expression, value: number): boolean {
  return part.kind === 'number' && part.value === value;
}

function spanOf({ start, end }: Span): Span {
  return { start, end };
}
