import { firstContact, lastContact, stemContact } from '../part/contact.ts';
import type { Part } from '../part/part.ts';
import type { Path } from '../part/path.ts';

/** A round ball of `radius` on its stem of `stemRadius` and `stemHeight` above the ball's centre. */
export interface Stylus {
  readonly radius: number;
  readonly stemRadius: number;
  readonly stemHeight: number;
}

/** Less than this is no contact, mm. */
const hair = 1e-6;
/** A tip that leaves is free within so much of its way for each mm that it was pushed in, and this much more; else it drags. */
const leaving = { each: 6, more: 1 } as const;

/**
 * Where along a plain motion (G0, G1, an arc) the stylus hits the part; null: it does not. A motion that begins in contact
 * may leave the part, but neither go deeper, nor drag along it, nor end in contact.
 */
export function hitAlong(
  part: Part,
  path: Path,
  stylus: Stylus,
): { readonly at: number; readonly with: 'tip' | 'stem' } | null {
  if (path.length < hair) return null;
  const tip = tipHit(part, path, stylus.radius);
  const stem = stemHit(part, path, stylus);
  if (stem !== null && (tip === null || stem < tip)) return { at: stem, with: 'stem' };
  return tip === null ? null : { at: tip, with: 'tip' };
}

/** Where the stem meets the part. A ball that is pushed in holds the stylus back, so until it is out the stem is not where it hangs. */
export function stemHit(part: Part, path: Path, { radius, stemRadius, stemHeight }: Stylus): number | null {
  const [x = 0, y = 0, z = 0] = path.at(0);
  const isPushed = part.distanceTo(x, y, z).distance < radius - hair;
  const out = isPushed ? lastContact(part, path, radius) : 0;
  return out === null ? null : stemContact(part, path, stemRadius, stemHeight, out);
}

function tipHit(part: Part, path: Path, radius: number): number | null {
  const [x = 0, y = 0, z = 0] = path.at(0);
  const { distance } = part.distanceTo(x, y, z);
  if (distance - radius > path.length) return null;
  if (distance - radius > hair) return firstContact(part, path, radius, distance - radius);
  const out = lastContact(part, path, radius + hair);
  const deeper = firstContact(part, path, distance - hair);
  if (deeper !== null && (out === null || deeper < out)) return deeper;
  if (out === null) return path.length;
  const drags = leaving.each * (radius - distance) + leaving.more;
  if (out > drags) return drags;
  return firstContact(part, path, radius, out);
}
