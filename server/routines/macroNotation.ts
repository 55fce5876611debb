import { wrapped } from './writing.ts';

/** Without a decimal point many controls of this family read least increments. */
export function pointed(value: number): string {
  const text = String(value);
  return text.includes('.') ? text : `${text}.`;
}

export function remarked(block: string, remark: string): string {
  return remark === '' ? block : `${block} (${remark.toUpperCase()})`;
}

export function comment(text: string): string[] {
  return wrapped(text, 70).map((line) => `(${line.toUpperCase()})`);
}
