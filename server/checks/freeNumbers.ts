import type { Source } from '../syntax/source.ts';

/** An o-label number that the program does not use, from 901 on. */
export function freeLabel(source: Source): number {
  return nextFree(used(source).labels);
}

/** An N number that the program does not use, from 901 on. */
export function freeLineNumber(source: Source): number {
  return nextFree(used(source).lineNumbers);
}

/** Is this N number the target of a GOTO, or can a computed GOTO reach it? */
export function isJumpTarget(source: Source, lineNumber: number): boolean {
  const { targets, computedTarget } = used(source);
  return computedTarget || targets.has(lineNumber);
}

interface Used {
  readonly labels: Set<number>;
  readonly lineNumbers: Set<number>;
  readonly targets: Set<number>;
  computedTarget: boolean;
}

/** A scan of the whole text, made once for a program, and only where a fix asks for it. */
const known = new WeakMap<Source, Used>();

function used(source: Source): Used {
  const before = known.get(source);
  if (before) return before;
  const found: Used = {
    labels: new Set(),
    lineNumbers: new Set(),
    targets: new Set(),
    computedTarget: false,
  };
  for (let line = 0; line < source.lineCount; line++) {
    const number = /^\uFEFF?[ \t]*(?:\/\d*[ \t]*)?[nN][ \t]*(\d+)/.exec(source.text.line(line))?.[1];
    if (number !== undefined) found.lineNumbers.add(Number(number));
  }
  for (const line of source.otherLines())
    for (const item of source.block(line).items) {
      if (item.kind === 'word' && item.letter === 'O' && item.value.kind === 'number')
        found.labels.add(item.value.value);
      if (item.kind !== 'flow') continue;
      if (item.form === 'o-word' && item.label !== null && /^\d+$/.test(item.label))
        found.labels.add(Number(item.label));
      if (item.form !== 'goto') continue;
      if (item.target.kind === 'number') found.targets.add(item.target.value);
      else found.computedTarget = true;
    }
  known.set(source, found);
  return found;
}

function nextFree(taken: ReadonlySet<number>): number {
  let number = 901;
  while (taken.has(number)) number++;
  return number;
}
