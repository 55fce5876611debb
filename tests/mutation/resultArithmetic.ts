import type { Expression, Item, Setting } from '../../server/syntax/tree.ts';
import { within } from './expressionParts.ts';
import { codesOf, type Lines, wordsOf } from './lines.ts';

/**
 * Names of parameters that go into a datum or a result, by what stands in the text: those in blocks that write offsets, the
 * results themselves, and what these are set from. Apart from the analysis, which follows paths and values.
 */
export function namesInResults({ blocks }: Lines, results: readonly string[]): ReadonlySet<string> {
  const names = new Set(results.map((name) => name.replace(/[#<>]/g, '')));
  for (const block of blocks) {
    if (codesOf(block).some((code) => /^G(10|92)$/.test(code)))
      for (const { letter, value } of wordsOf(block))
        if (/^[XYZP]$/.test(letter)) for (const name of parametersIn(value)) names.add(name);
    for (const item of block.items)
      if (item.kind === 'setting' && writesOffset(item))
        for (const name of parametersIn(item.value)) names.add(name);
  }
  for (let before = -1; before < names.size; ) {
    before = names.size;
    for (const block of blocks)
      for (const item of block.items)
        if (item.kind === 'setting' && names.has(nameOf(item.target) ?? ''))
          for (const name of parametersIn(item.value)) names.add(name);
  }
  return names;
}

/** Whether what stands in this item is arithmetic of a datum or a result. */
export function isOfResult(item: Item, codes: readonly string[], names: ReadonlySet<string>): boolean {
  if (item.kind === 'word')
    return codes.some((code) => /^G(10|92)$/.test(code)) && /^[XYZP]$/.test(item.letter);
  if (item.kind !== 'setting') return false;
  return writesOffset(item) || names.has(nameOf(item.target) ?? '');
}

/** `#5221=…`, `#[5201+20*#1]=…`. */
function writesOffset({ target }: Setting): boolean {
  if ('number' in target.index) return target.index.number >= 5201 && target.index.number < 5400;
  return 'expression' in target.index;
}

function parametersIn(expression: Expression): string[] {
  return [...within(expression)].flatMap((part) => {
    const name = part.kind === 'parameter' ? nameOf(part) : null;
    return name === null ? [] : [name];
  });
}

function nameOf({ index }: Expression & { kind: 'parameter' }): string | null {
  if ('name' in index) return index.name;
  return 'number' in index ? String(index.number) : null;
}
