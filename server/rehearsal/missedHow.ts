import type { TouchRecord } from './runRecord.ts';

/** What became of a touch that did not trip: it met nothing, met the part unheeded, or stayed against it on its way out. */
export function missedHow({
  code,
  surface,
}: Pick<TouchRecord, 'code' | 'surface'>): 'no contact' | 'no trip' | 'no release' {
  if (code === 'G38.4' || code === 'G38.5') return 'no release';
  return surface === null ? 'no contact' : 'no trip';
}
