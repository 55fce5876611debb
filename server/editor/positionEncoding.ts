/** What a client counts in within a line. All of the server counts in UTF-16. */
export type Encoding = 'utf-8' | 'utf-16' | 'utf-32';

/** The first of a client's wishes that we know; UTF-16 where it has none, as the protocol says. */
export function chosenEncoding(wishes: readonly string[] | undefined): Encoding {
  const known = wishes?.find((wish) => wish === 'utf-8' || wish === 'utf-16' || wish === 'utf-32');
  return (known as Encoding | undefined) ?? 'utf-16';
}

/** The column of a UTF-16 offset in a line; behind the line's end each unit counts one. */
export function columnIn(line: string, offset: number, encoding: Encoding): number {
  if (encoding === 'utf-16' || isAscii(line)) return offset;
  let column = 0;
  let at = 0;
  for (const character of line) {
    if (at >= offset) return column;
    at += character.length;
    column += widthOf(character, encoding);
  }
  return column + Math.max(0, offset - at);
}

/** The UTF-16 offset of a column in a line; a column inside a character is taken as its start. */
export function offsetOf(line: string, column: number, encoding: Encoding): number {
  if (encoding === 'utf-16' || isAscii(line)) return column;
  let counted = 0;
  let at = 0;
  for (const character of line) {
    counted += widthOf(character, encoding);
    if (counted > column) return at;
    at += character.length;
  }
  return at + Math.max(0, column - counted);
}

function widthOf(character: string, encoding: Encoding): number {
  if (encoding === 'utf-32') return 1;
  const point = character.codePointAt(0) ?? 0;
  return point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
}

function isAscii(line: string): boolean {
  for (let at = 0; at < line.length; at++) if (line.charCodeAt(at) > 0x7f) return false;
  return true;
}
