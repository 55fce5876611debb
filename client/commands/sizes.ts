/** What is wrong with a typed length, in words; null: nothing. */
export function sizeFault(typed: string, isNeeded: boolean): string | null {
  const text = typed.trim();
  if (text === '') return isNeeded ? 'A number must stand here.' : null;
  if (/^\d*,\d+$/.test(text)) return 'Write the number with a point: 25.001';
  if (!/^(\d+\.?\d*|\.\d+)$/.test(text)) return `"${text}" is no length.`;
  return isNeeded && Number(text) === 0 ? 'More than 0 is wanted.' : null;
}

/** null: nothing was typed. */
export function readSize(typed: string): number | null {
  return typed.trim() === '' ? null : Number(typed);
}

export function countFault(typed: string): string | null {
  return /^\d+$/.test(typed.trim()) && Number(typed) >= 3 ? null : 'A whole number of 3 or more is wanted.';
}

export function anglesFault(typed: string): string | null {
  return readAngles(typed).every(Number.isFinite) ? null : 'Degrees with commas between them: 0, 180';
}

export function readAngles(typed: string): number[] {
  return typed.trim() === ''
    ? []
    : typed.split(',').map((part) => (part.trim() === '' ? Number.NaN : Number(part)));
}
