import type { Modes } from '../analysis/model.ts';
import type { Profile } from '../profile/profile.ts';
import type { DialectName } from '../syntax/dialect.ts';

export type Unit = 'mm' | 'inch';

/** Unit of the program's lengths where it is certain on every path; else null. */
export function knownUnit(modes: Modes): Unit | null {
  const [code] = modes.units;
  if (modes.units.length !== 1) return null;
  return code === 'G21' ? 'mm' : code === 'G20' ? 'inch' : null;
}

/** Unit to speak to the reader in: the program's, else the profile's. */
export function readerUnit(modes: Modes, profile: Profile): Unit {
  return knownUnit(modes) ?? profile.units;
}

/** mm → "2.8 mm", "0.11 in". */
export function lengthText(mm: number, unit: Unit): string {
  return unit === 'mm' ? `${rounded(mm, mm < 0.1 ? 3 : 2)} mm` : `${rounded(mm / 25.4, 4)} in`;
}

/** mm/min → "40 mm/min", "1.6 in/min". */
export function feedText(mmPerMinute: number, unit: Unit): string {
  return unit === 'mm' ? `${rounded(mmPerMinute, 1)} mm/min` : `${rounded(mmPerMinute / 25.4, 2)} in/min`;
}

/** An error: mm → "6.9 µm", "0.00027 in". */
export function errorText(mm: number, unit: Unit): string {
  return unit === 'mm' ? `${rounded(Math.abs(mm) * 1000, 1)} µm` : `${rounded(Math.abs(mm) / 25.4, 5)} in`;
}

/**
 * A length as the program writes it. The macro family gets a decimal point always: without one some of its machines read
 * a number in their smallest increment (common practice, no source).
 */
export function lengthNumber(mm: number, unit: Unit, dialect: DialectName): string {
  const text = unit === 'mm' ? rounded(mm, 3) : rounded(mm / 25.4, 4);
  return dialect === 'macro' && !text.includes('.') ? `${text}.` : text;
}

/** An F word, never above the feed given. */
export function feedWord(mmPerMinute: number, unit: Unit, dialect: DialectName): string {
  const scale = unit === 'mm' ? 10 : 100;
  const value = Math.floor((unit === 'mm' ? mmPerMinute : mmPerMinute / 25.4) * scale + 1e-6) / scale;
  return `F${value}${dialect === 'macro' && Number.isInteger(value) ? '.' : ''}`;
}

function rounded(value: number, decimals: number): string {
  return String(Number(value.toFixed(decimals)));
}
