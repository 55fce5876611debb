import { contactAt, firstContact, lastContact } from '../part/contact.ts';
import type { Part } from '../part/part.ts';
import type { Path } from '../part/path.ts';
import type { Point } from '../part/solid.ts';
import type { VirtualProbe } from './virtualProbe.ts';

/** A touch to be made: the way of the ball's centre, mm and mm/s. */
export interface TouchMove {
  readonly part: Part;
  readonly probe: VirtualProbe;
  readonly path: Path;
  readonly speed: number;
  /** How far the spindle stands from where the probe was calibrated, degrees. */
  readonly turn: number;
  readonly away: boolean;
  readonly dead: boolean;
  /** Trips half-way to where it would really trip. */
  readonly tripsFalsely: boolean;
  /** What chance adds: to the trip, mm along the normal, and to the latch, s. */
  readonly chance: { readonly trip: number; readonly latch: number };
}

/** Where it ended, all as mm along the path. */
export interface Touched {
  /** Where the control latched; null: it did not trip. */
  readonly latched: number | null;
  /** The farthest that the axis got. */
  readonly reached: number;
  /** Where the axis stands in the end. */
  readonly rest: number;
  readonly contact: Contact | null;
  /** Past the trip, 0 without one. */
  readonly overtravel: number;
  /** How far the stylus was pushed along the normal, after the trip or, untripped, after first contact. */
  readonly pushed: number;
}

export interface Contact {
  readonly at: number;
  /** Unit vector to the surface. */
  readonly normal: Point;
  readonly point: Point;
  readonly solid: number;
  /** Cosine of the angle at which the path meets the surface. */
  readonly head: number;
  /** How far the ball is pushed in there already. */
  readonly depth: number;
}

/** A ball that slides along a surface does not trip for ever later. */
const leastHead = 0.02;

/** Whether the ball, resting here, holds the probe tripped. */
export function isTripped(part: Part, probe: VirtualProbe, centre: readonly number[], turn: number): boolean {
  const [x = 0, y = 0, z = 0] = centre;
  const met = contactAt(part, x, y, z);
  if (met === null || met.distance >= probe.radius) return false;
  return probe.radius - met.distance >= probe.preTravel(met.normal, 0, turn) - 1e-9;
}

/** The motion of a touch whose probe was ready when it began. */
export function touchMotion(move: TouchMove): Touched {
  const { path, probe, speed } = move;
  const contact = move.away ? releaseAt(move) : meetingAt(move);
  const trip = tripAt(move, contact);
  if (trip === null || trip > path.length) {
    const pushed = contact && !move.away ? (path.length - contact.at) * contact.head : 0;
    return { latched: null, reached: path.length, rest: path.length, contact, overtravel: 0, pushed };
  }
  const within = (s: number) => Math.min(Math.max(s, 0), path.length);
  const latched = within(trip + speed * (probe.probe.machine.tripLatency + move.chance.latch));
  const reached = within(trip + probe.stopping(speed));
  const returns = probe.probe.machine.afterTrip === 'returns-to-trip';
  return {
    latched,
    reached,
    rest: returns ? latched : reached,
    contact: contact && (move.away || contact.at <= reached) ? contact : null,
    overtravel: reached - trip,
    pushed: move.away ? 0 : pushedTo(reached, trip, contact),
  };
}

function tripAt(move: TouchMove, contact: Contact | null): number | null {
  const real = move.dead ? null : realTrip(move, contact);
  if (!move.tripsFalsely || move.dead) return real;
  return Math.min(real ?? move.path.length, move.path.length) / 2;
}

function realTrip({ probe, speed, turn, away, chance }: TouchMove, contact: Contact | null): number | null {
  if (contact === null) return null;
  const push = probe.preTravel(contact.normal, speed, turn) + chance.trip - contact.depth;
  const way = push / Math.max(contact.head, leastHead);
  return Math.max(0, away ? contact.at - way : contact.at + way);
}

function pushedTo(reached: number, trip: number, contact: Contact | null): number {
  if (contact === null) return 0;
  return Math.max(0, (reached - Math.max(trip, contact.at)) * contact.head);
}

/** Where the ball first meets the part; one that rests against it and moves on inwards meets it at once. */
function meetingAt({ part, probe, path }: TouchMove): Contact | null {
  const start = contactOf(part, path, probe.radius, 0, 1);
  if (start && start.depth > 1e-9) {
    if (start.head > 0) return start;
    const out = lastContact(part, path, probe.radius + 1e-6);
    if (out === null) return null;
    const again = firstContact(part, path, probe.radius, out);
    return again === null ? null : contactOf(part, path, probe.radius, again, 1);
  }
  const at = firstContact(part, path, probe.radius);
  return at === null ? null : contactOf(part, path, probe.radius, at, 1);
}

/** Where a ball that leaves loses the part. */
function releaseAt({ part, probe, path }: TouchMove): Contact | null {
  const at = lastContact(part, path, probe.radius);
  return at === null ? null : contactOf(part, path, probe.radius, at, -1);
}

function contactOf(part: Part, path: Path, radius: number, at: number, sense: 1 | -1): Contact | null {
  const [x = 0, y = 0, z = 0] = path.at(at);
  const met = contactAt(part, x, y, z);
  if (met === null) return null;
  const way = path.direction(at);
  const { normal, point, solid } = met;
  const head = sense * (way[0] * normal[0] + way[1] * normal[1] + way[2] * normal[2]);
  const depth = radius - met.distance;
  // The trace comes within a hair of the surface, which is no push.
  return { at, normal, point, solid, head, depth: Math.abs(depth) < 1e-8 ? 0 : depth };
}
