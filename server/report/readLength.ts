/** A length over 0 as a person writes it, with or without its unit, in mm; null where it is none. */
export function readLength(written: string, units: 'mm' | 'inch'): number | null {
  const parts = /^(\d+\.?\d*|\.\d+)\s*(mm|in|inch)?$/.exec(written.trim());
  const value = parts === null ? 0 : Number(parts[1]);
  const unit = parts?.[2] ?? (units === 'mm' ? 'mm' : 'in');
  return value > 0 && Number.isFinite(value) ? value * (unit === 'mm' ? 1 : 25.4) : null;
}
