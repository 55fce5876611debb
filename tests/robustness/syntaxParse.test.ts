import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dialects } from '../../server/syntax/dialects.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import type { Block, Expression, Span } from '../../server/syntax/tree.ts';
import { randomLine } from '../syntax/randomLines.ts';

const both = Object.values(dialects);

/** Every character is in exactly one part of the block, or a blank between parts. */
function checkCoverage(block: Block): void {
  const parts: Span[] = [block.blockDelete, block.lineNumber, ...block.items].filter(
    (part) => part !== undefined,
  );
  parts.sort((a, b) => a.start - b.start || a.end - b.end);
  let at = 0;
  for (const part of parts) {
    expect(part.start).toBeGreaterThanOrEqual(at);
    expect(part.end).toBeGreaterThan(part.start);
    expect(block.text.slice(at, part.start)).toMatch(/^\ufeff?[ \t]*$/);
    at = part.end;
  }
  expect(at).toBeLessThanOrEqual(block.text.length);
  expect(block.text.slice(at)).toMatch(/^\ufeff?[ \t\x1a]*$/);
}

/** Children lie inside their parents. */
function checkSpans(expression: Expression, within: Span): void {
  expect(expression.start).toBeGreaterThanOrEqual(within.start);
  expect(expression.end).toBeLessThanOrEqual(within.end);
  if (expression.kind === 'unary') checkSpans(expression.operand, expression);
  if (expression.kind === 'call') for (const value of expression.arguments) checkSpans(value, expression);
  if (expression.kind === 'binary') {
    checkSpans(expression.left, expression);
    checkSpans(expression.right, expression);
  }
  if (expression.kind === 'parameter' && 'expression' in expression.index) {
    checkSpans(expression.index.expression, expression);
  }
}

function checkBlock(line: string): void {
  for (const dialect of both) {
    const block = parseBlock(line, dialect);
    expect(block.text).toBe(line);
    checkCoverage(block);
    for (const item of block.items) {
      if (item.kind === 'word') checkSpans(item.value, item);
      if (item.kind === 'setting') checkSpans(item.value, item);
    }
    for (const fault of block.faults) {
      expect(fault.start).toBeGreaterThanOrEqual(0);
      expect(fault.end).toBeGreaterThanOrEqual(fault.start);
      expect(fault.end).toBeLessThanOrEqual(line.length);
    }
    if (block.items.some((item) => item.kind === 'stray')) expect(block.faults.length).toBeGreaterThan(0);
  }
}

describe('parsing accounts for every character and never throws', { timeout: 120_000 }, () => {
  it('on lines made of real parts', () => {
    fc.assert(fc.property(randomLine, checkBlock), { numRuns: 1500 });
  });

  it('on any text', () => {
    const text = fc.string({ unit: 'binary', maxLength: 60 }).filter((line) => !/[\r\n]/.test(line));
    fc.assert(fc.property(text, checkBlock), { numRuns: 1000 });
  });
});

// What takes more than linear time runs into the time limit by far.
describe('lines of a megabyte', { timeout: 120_000 }, () => {
  const size = 1_000_000;
  it.each([
    ['brackets', `X${'['.repeat(size)}`],
    ['brackets and back', `X${'['.repeat(size / 2)}1${']'.repeat(size / 2)}`],
    ['closing brackets', ']'.repeat(size)],
    ['hashes', '#'.repeat(size)],
    ['lost brackets', 'X[?'.repeat(size / 3)],
    ['a long sum', `X[${'1+'.repeat(size / 2)}1]`],
    ['a long sum without brackets', `#1=${'1+'.repeat(size / 2)}1`],
    ['a number', `X${'1'.repeat(size)}`],
    ['blanks', ' '.repeat(size)],
    ['words', 'X1 '.repeat(size / 3)],
    ['letters', 'X'.repeat(size)],
    ['letters apart', 'X '.repeat(size / 2)],
    ['comments', '(a)'.repeat(size / 3)],
    ['opening comments', '('.repeat(size)],
    ['nested comments', '(a (b) c)'.repeat(size / 9)],
    ['nested comments without end', '(a (b) '.repeat(size / 7)],
    ['settings', '#1=2 '.repeat(size / 5)],
    ['settings of names', '#<'.repeat(size / 2)],
    ['minus signs', `X${'-'.repeat(size)}`],
    ['signed brackets', `X${'-['.repeat(size / 2)}`],
    ['functions', `X${'SIN['.repeat(size / 4)}`],
    ['O-words', 'o1 call [1] '.repeat(size / 12)],
    ['conditions', 'IF[1]GOTO1 '.repeat(size / 11)],
    ['question marks', '? '.repeat(size / 2)],
    ['output', `DPRNT[${'#1[53]'.repeat(size / 6)}`],
    ['output again and again', 'DPRNT[ '.repeat(size / 7)],
    ['slashes', '/'.repeat(size)],
  ])('%s', (_, line) => {
    for (const dialect of both) {
      const block = parseBlock(line, dialect);
      expect(block.faults.length).toBeLessThanOrEqual(51);
      expect(heightOf(block)).toBeLessThanOrEqual(401);
    }
  });
});

/** Height of the tallest expression in a block, without recursion. */
function heightOf(block: Block): number {
  let tallest = 0;
  const open = block.items.flatMap((item) =>
    item.kind === 'word' || item.kind === 'setting' ? [{ expression: item.value, height: 1 }] : [],
  );
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    const { expression, height } = next;
    tallest = Math.max(tallest, height);
    const children: Expression[] = [];
    if (expression.kind === 'unary') children.push(expression.operand);
    if (expression.kind === 'binary') children.push(expression.left, expression.right);
    if (expression.kind === 'call') children.push(...expression.arguments);
    if (expression.kind === 'parameter' && 'expression' in expression.index)
      children.push(expression.index.expression);
    open.push(...children.map((child) => ({ expression: child, height: height + 1 })));
  }
  return tallest;
}
