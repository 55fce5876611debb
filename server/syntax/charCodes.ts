/** UTF-16 code units that the scanner compares with. */
export const code = {
  tab: 0x09,
  lineFeed: 0x0a,
  carriageReturn: 0x0d,
  endOfTape: 0x1a,
  space: 0x20,
  hash: 0x23,
  percent: 0x25,
  openParenthesis: 0x28,
  closeParenthesis: 0x29,
  star: 0x2a,
  plus: 0x2b,
  comma: 0x2c,
  minus: 0x2d,
  point: 0x2e,
  slash: 0x2f,
  colon: 0x3a,
  semicolon: 0x3b,
  less: 0x3c,
  equals: 0x3d,
  greater: 0x3e,
  at: 0x40,
  openBracket: 0x5b,
  closeBracket: 0x5d,
  caret: 0x5e,
  byteOrderMark: 0xfeff,
} as const;

/** NISTIR 6556 3.3: spaces and tabs count for nothing outside comments. */
export function isBlank(unit: number): boolean {
  return unit === code.space || unit === code.tab;
}

export function isDigit(unit: number): boolean {
  return unit >= 0x30 && unit <= 0x39;
}

export function isSign(unit: number): boolean {
  return unit === code.plus || unit === code.minus;
}

/** A to Z in either case. */
export function isLetter(unit: number): boolean {
  const lower = unit | 0x20;
  return lower >= 0x61 && lower <= 0x7a;
}
