import { wrap } from './wrap.ts';

const indent = 8;
const labelWidth = 18;

/** A line `label  text` of a block; what is too long goes on under its beginning. `paint` colours each line of it. */
export function labelled(
  label: string,
  text: string,
  width: number,
  paint: (text: string) => string = (plain) => plain,
): string {
  return wrap(text, Math.max(30, width - indent - labelWidth))
    .map(
      (line, index) =>
        `${' '.repeat(indent)}${(index === 0 ? label : '').padEnd(labelWidth)}${paint(line)}\n`,
    )
    .join('');
}
