import type { Place } from '../syntax/place.ts';
import { printable, type Style } from './style.ts';
import { wrap } from './wrap.ts';

/** A place that an excerpt marks; the first is what the excerpt is about. */
export interface Mark {
  readonly place: Place;
  /** What stands beside the mark; empty: nothing. */
  readonly label: string;
  readonly main: boolean;
}

/**
 * Source lines with their numbers, in the order of the text, each mark underneath: `^` for the main one, `-` for the
 * others. Lines wider than `width` are cut around the mark.
 */
export function excerpt(
  marks: readonly Mark[],
  line: (index: number) => string,
  style: Style,
  accent: (text: string) => string,
  width: number,
): string {
  const ordered = [...marks].sort((a, b) => a.place.line - b.place.line || a.place.start - b.place.start);
  const gutter = Math.max(5, String((ordered.at(-1)?.place.line ?? 0) + 1).length + 2);
  const room = Math.max(20, width - gutter - 3);
  let shown = -1;
  let text = '';
  for (const mark of ordered) {
    const { place } = mark;
    const [from, to] = cut(line(place.line).length, place, room);
    if (place.line !== shown || from > 0) {
      if (shown !== -1 && place.line > shown + 1) text += `${style.dim(`${':'.padStart(gutter)}`)}\n`;
      const number = style.dim(`${String(place.line + 1).padStart(gutter)} |`);
      text += `${number} ${clipped(line(place.line), from, to)}\n`;
    }
    shown = place.line;
    text += underline(mark, from, to, gutter, room, style, mark.main ? accent : style.cyan);
  }
  return text;
}

/** The part of a line that is shown: all of it, or a window that holds the start of the place. */
function cut(length: number, place: Place, room: number): [number, number] {
  if (length <= room) return [0, length];
  const from = Math.max(0, Math.min(place.start - Math.floor(room / 3), length - room));
  return [from, from + room];
}

function clipped(line: string, from: number, to: number): string {
  const text = printable(line.slice(from, to));
  return `${from > 0 ? `…${text.slice(1)}` : text}`.replace(/.$/u, (end) => (to < line.length ? '…' : end));
}

function underline(
  { place, label, main }: Mark,
  from: number,
  to: number,
  gutter: number,
  room: number,
  style: Style,
  accent: (text: string) => string,
): string {
  const start = Math.max(0, place.start - from);
  const length = Math.max(1, Math.min(place.end, to) - from - start);
  const bar = `${style.dim(`${'|'.padStart(gutter + 2)}`)} `;
  const mark = `${' '.repeat(start)}${accent((main ? '^' : '-').repeat(length))}`;
  if (label === '') return `${bar}${mark}\n`;
  if (start + length + 1 + label.length <= room) return `${bar}${mark} ${accent(label)}\n`;
  const indent = Math.max(0, Math.min(start, room - 40));
  const below = wrap(label, room - indent).map((part) => `${bar}${' '.repeat(indent)}${accent(part)}\n`);
  return `${bar}${mark}\n${below.join('')}`;
}
