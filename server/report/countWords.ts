const words = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
];

/** 4 → "four"; from 13 on in digits. */
export function countWord(count: number): string {
  return words[count] ?? String(count);
}

export function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** "a", "a and b", "a, b and c". */
export function listed(parts: readonly string[]): string {
  const last = parts.at(-1) ?? '';
  return parts.length < 2 ? last : `${parts.slice(0, -1).join(', ')} and ${last}`;
}

/** "line 7", "lines 7 and 9". */
export function linesText(rows: readonly number[]): string {
  return `line${rows.length === 1 ? '' : 's'} ${listed(rows.map(String))}`;
}
