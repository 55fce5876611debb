import { identifyDiameter } from '../probe/diameterLiteral.ts';
import type { Probe } from '../probe/probe.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import { type Traced, touchesOf, type Unknown, type Value } from '../program/value.ts';
import { followingNear, followingOf } from './following.ts';
import type { ConstantUse, Datum, DiameterUse, Sum, Term, Touch } from './model.ts';
import type { DatumWrite, Record } from './record.ts';

const axisNames = ['x', 'y', 'z', 'a', 'b', 'c', 'u', 'v', 'w'] as const;

/** The datums that touches enter, as affine forms over them and the diameter (error-model.md, section 4). */
export function datumsOf(record: Record, touches: ReadonlyMap<number, Touch>, profile: Profile): Datum[] {
  const probe = probeOf(profile);
  const found = new Map<string, Datum>();
  for (const write of record.datums) {
    const datum = datumOf(write, touches, probe);
    const key = `${datum.line}:${datum.place.start}:${datum.target}:${describe(datum)}`;
    if (!found.has(key)) found.set(key, datum);
  }
  return [...found.values()].sort((a, b) => a.line - b.line || a.place.start - b.place.start);
}

function describe(datum: Datum): string {
  return datum.terms?.map((t) => `${t.touch.id}${t.axis}${t.coefficient}`).join() ?? datum.reason ?? '';
}

function datumOf(written: DatumWrite, touches: ReadonlyMap<number, Touch>, probe: Probe): Datum {
  const { write, origin } = written;
  const made = madeOf(origin, touches, probe);
  const target = `${write.system}.${axisNames[write.axis] ?? '?'}`;
  const datum = {
    file: null,
    line: write.place.line,
    place: write.place,
    target,
    near: [],
    spots: [],
    magnitude: null,
    slopes: slopesOf(written.sums, touches, probe),
    unit: write.axis >= 3 && write.axis <= 5 ? 'degrees' : 'mm',
  } as const;
  if (made.terms === null && written.near !== null) {
    const near = written.near.sums.map(
      (sum): Datum => ({ ...datum, ...madeOf(sum, touches, probe), following: null }),
    );
    const { spots } = written.near;
    return { ...datum, ...made, following: followingNear(written, written.near), near, spots };
  }
  const following = made.terms === null || made.restsOnInputs ? null : followingOf(written, made.terms);
  return { ...datum, ...made, following };
}

/** What a value, mm, is made of: touches, the diameter, constants. */
export type MadeOf = Pick<Datum, 'terms' | 'diameters' | 'constants' | 'restsOnInputs' | 'reason'>;

export function madeOf(value: Value, touches: ReadonlyMap<number, Touch>, probe: Probe): MadeOf {
  const parts = typeof value === 'number' ? [] : weighty(value.terms);
  const terms: Term[] = [];
  const diameters: DiameterUse[] = [];
  const constants: ConstantUse[] = [];
  const nothing = { terms: null, diameters: [], constants: [], restsOnInputs: false };
  let restsOnInputs = false;
  for (const { unknown, coefficient } of parts) {
    const reason = obstacle(unknown);
    if (reason !== null) return { ...nothing, reason };
    if (unknown.kind === 'latched' || unknown.kind === 'stopped') {
      const touch = touches.get(unknown.touch);
      if (!touch) return { ...nothing, reason: 'a touch that no path reaches' };
      terms.push(termOf(touch, unknown.axis, coefficient, unknown.kind));
    } else if (unknown.kind === 'literal') {
      const use = literalUse(unknown, coefficient, probe);
      if (use) diameters.push({ ...use, place: unknown.place });
      else constants.push({ coefficient, value: unknown.value, place: unknown.place });
    } else if (unknown.kind === 'diameter') {
      diameters.push({ coefficient, value: null, source: unknown.source, place: unknown.place });
    } else if (!isOrigin(unknown)) {
      restsOnInputs = true;
    }
  }
  return { terms, diameters, constants, restsOnInputs, reason: null };
}

/** What the sums that a value comes close to agree on. */
export function slopesOf(
  sums: readonly Value[],
  touches: ReadonlyMap<number, Touch>,
  probe: Probe,
): Sum | null {
  const [first, ...others] = sums.map((sum) => madeOf(sum, touches, probe));
  if (!first?.terms || first.terms.length === 0) return null;
  const isAlike = (other: MadeOf) => apart(first, other) <= mostApart * largest(first);
  return others.every(isAlike) ? { ...first, terms: first.terms } : null;
}

/** Share of the steepest slope by which slopes may differ between two places where the touches may meet their surfaces. */
const mostApart = 0.1;

function slopesIn({ terms, diameters }: MadeOf): ReadonlyMap<string, number> {
  const slopes = new Map<string, number>();
  const add = (key: string, coefficient: number) => slopes.set(key, (slopes.get(key) ?? 0) + coefficient);
  for (const { touch, axis, from, coefficient } of terms ?? []) add(`${touch.id}${axis}${from}`, coefficient);
  for (const { coefficient } of diameters) add('diameter', coefficient);
  return slopes;
}

function largest(sum: MadeOf): number {
  return Math.max(...[...slopesIn(sum).values()].map(Math.abs));
}

function apart(a: MadeOf, b: MadeOf): number {
  const [one, other] = [slopesIn(a), slopesIn(b)];
  const keys = [...one.keys(), ...other.keys()];
  return Math.max(...keys.map((key) => Math.abs((one.get(key) ?? 0) - (other.get(key) ?? 0))));
}

/** Without what is left where sines and cosines of a few decimals should have cancelled. */
function weighty(parts: Traced['terms']): Traced['terms'] {
  const most = Math.max(...parts.map(({ coefficient }) => Math.abs(coefficient)));
  return parts.filter(({ coefficient }) => Math.abs(coefficient) > 1e-6 * most);
}

/** Origins, shifts, lengths and positions, in which no program keeps its compensation. */
function isOrigin(unknown: Unknown): boolean {
  if (unknown.kind !== 'given') return false;
  const key = unknown.key.replace(/^g:(input:)?/, '');
  const number = /^\d+/.exec(key);
  if (number) return Number(number[0]) >= 5021 && Number(number[0]) < 5430;
  return /^(origin|beside|shift|start|reference|machine|reset|moved|offset|tool:\d+:z)\b/.test(key);
}

function termOf(touch: Touch, axis: number, coefficient: number, from: 'latched' | 'stopped'): Term {
  const n = touch.direction?.[axis as 0 | 1 | 2];
  const sign = n === undefined || Math.abs(Math.abs(n) - 1) > 1e-9 ? null : Math.sign(n);
  return { touch, axis: axisNames[axis] as Term['axis'], coefficient, sign, from };
}

/** Why the value is no affine form over touches, where a touch enters this unknown; else null. */
function obstacle(unknown: Unknown): string | null {
  if (unknown.kind === 'given') return unknown.touches.length > 0 ? unknown.reason : null;
  if (unknown.kind !== 'computed') return null;
  const inside: Value = { terms: [{ unknown, coefficient: 1 }], constant: 0, key: unknown.key };
  return touchesOf(inside).size > 0
    ? 'it is not a sum of touches: a product, a root or a function of them'
    : null;
}

/** The value as a whole is asked first: half a diameter is a radius; then each number that it is a multiple of. */
function literalUse(
  { value, perMillimetre, factors }: Unknown & { kind: 'literal' },
  coefficient: number,
  probe: Probe,
): Omit<DiameterUse, 'place'> | null {
  for (const part of [value, ...factors]) {
    const found = identifyDiameter(probe, part, perMillimetre === 1 ? part * 25.4 : part / 25.4);
    if (found.kind === 'constant') continue;
    const share = found.coefficient * Math.sign(part) * (value / part);
    return {
      coefficient: coefficient * share,
      value: Math.abs(part) / found.coefficient,
      source: found.kind,
    };
  }
  return null;
}
