import { code } from './charCodes.ts';

/** So many digits fit a 32-bit integer. */
export const quickDigits = 9;

/** Powers of ten that a double holds exactly, so that one division rounds right. */
export const powers = Float64Array.from({ length: 23 }, (_, index) => Number(`1e${index}`));

const { minus, plus, point } = code;

/** The nearest double to the number that begins there: sign, digits, and a point among them. */
export function numberAt(bytes: Uint8Array, from: number): number {
  const sign = bytes[from] as number;
  const first = sign === minus || sign === plus ? from + 1 : from;
  let at = first;
  let whole = 0;
  let pointAt = -1;
  for (; ; at++) {
    const unit = bytes[at] as number;
    if ((unit - 0x30) >>> 0 < 10) whole = (Math.imul(whole, 10) + unit - 0x30) | 0;
    else if (unit === point && pointAt < 0) pointAt = at;
    else break;
  }
  const places = pointAt < 0 ? 0 : at - pointAt - 1;
  const digits = at - first - (pointAt < 0 ? 0 : 1);
  const value = digits <= quickDigits ? whole / (powers[places] as number) : longNumber(bytes, first, at);
  return sign === minus ? -value : value;
}

/** Of more digits than `quickDigits`, without a sign. */
export function longNumber(bytes: Uint8Array, from: number, to: number): number {
  let written = '';
  for (let at = from; at < to; at++) written += String.fromCharCode(bytes[at] as number);
  return Number(written);
}
