import { readBlockDelete, readBlockStart } from './blockStart.ts';
import { code, isLetter } from './charCodes.ts';
import { readComment } from './comments.ts';
import type { Dialect } from './dialect.ts';
import { readMacroFlow } from './macroFlow.ts';
import { readOutput } from './outputs.ts';
import { readOWord } from './oWords.ts';
import { type Scanner, scanLine } from './scanner.ts';
import { readSetting } from './settings.ts';
import { readStray } from './strays.ts';
import type { Block, Fault, Item } from './tree.ts';
import { isWordSign, readCommaWord, readWord } from './words.ts';

/**
 * One line (without its ending) as a block; never throws. A byte-order mark at its start and Ctrl-Z at its end count
 * as blanks. Items with the blanks between them account for the whole line. At most 50 faults are kept.
 */
export function parseBlock(line: string, dialect: Dialect): Block {
  const scanner = scanLine(line, dialect);
  if (scanner.peek() === code.percent) {
    const item: Item = { kind: 'percent', start: scanner.at, end: scanner.end };
    return { text: line, items: [item], faults: [] };
  }
  const start = readBlockStart(scanner);
  let { blockDelete } = start;
  const items: Item[] = [];
  for (let unit = scanner.peek(); !Number.isNaN(unit); unit = scanner.peek()) {
    if (unit === code.slash && dialect.blockDeleteAnywhere && !blockDelete) {
      blockDelete = readBlockDelete(scanner);
    } else readItems(scanner, unit, items);
  }
  return { text: line, ...start, ...(blockDelete && { blockDelete }), items, faults: faultsOf(scanner) };
}

function readItems(scanner: Scanner, unit: number, items: Item[]): void {
  if (unit === code.openParenthesis || (unit === code.semicolon && scanner.dialect.semicolonComments))
    items.push(...readComment(scanner));
  else if (unit === code.hash) items.push(readSetting(scanner));
  else if (isLetter(unit)) readLettered(scanner, unit, items);
  else if (isWordSign(unit, scanner.dialect)) items.push(readWord(scanner));
  else items.push((unit === code.comma ? readCommaWord(scanner) : null) ?? readStray(scanner));
}

function readLettered(scanner: Scanner, unit: number, items: Item[]): void {
  if (scanner.dialect.oWords && (unit | 0x20) === 0x6f) {
    items.push(...readOWord(scanner));
    return;
  }
  const special = scanner.dialect.macroFlow ? (readMacroFlow(scanner) ?? readOutput(scanner)) : null;
  items.push(special ?? readWord(scanner));
}

function faultsOf(scanner: Scanner): readonly Fault[] {
  const most = scanner.dialect.maximumLineLength;
  const { length } = scanner.text;
  if (most === null || length <= most) return scanner.faults;
  return [...scanner.faults, { code: 'line-too-long', start: most, end: length, detail: String(length) }];
}
