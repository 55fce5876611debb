import { type TouchErrorResult, touchError, turnOf } from '../analysis/error.ts';
import type { Touch } from '../analysis/model.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import { directionAngle, directionName } from '../report/direction.ts';
import { type Quantities, quantities } from '../report/quantities.ts';
import { radiusPicture } from '../report/radiusPicture.ts';
import { spindleWords } from '../report/spindleWords.ts';
import type { Program } from '../workspace/program.ts';
import { budgetParts, provenance } from './budgetParts.ts';
import { goodForParts } from './goodForParts.ts';
import { unitsAt } from './modesInForce.ts';
import { profileWarning } from './profileWarning.ts';
import { code, type Part, paragraph } from './richText.ts';

interface Known {
  readonly touch: Touch;
  readonly error: TouchErrorResult | null;
}

/** What one touch is worth with this probe: the verdict first, then where each number comes from. */
export function touchParts(program: Program, touches: readonly Touch[]): Part[] {
  const { profile } = program.profile;
  const known: Known[] = touches.map((touch) => ({
    touch,
    error: touchError(touch, program.analysis, profile),
  }));
  const [worst] = [...known].sort((a, b) => weight(b.error) - weight(a.error));
  if (!worst) return [];
  const show = quantities(unitsAt(worst.touch.modes, profile.units));
  const { touch, error } = worst;
  return [
    ...headline(touch, error, show),
    ...profileWarning(program),
    ...stop(touch, error, profile, show),
    ...details(touch, error, profile, show),
    ...picture(touch, error, profile, show),
    ...(error ? budgetParts(error, profile, show) : []),
    ...otherCalls(known, show),
  ];
}

function weight(error: TouchErrorResult | null): number {
  return error?.expectedError ?? error?.expandedUncertainty ?? -1;
}

function headline(touch: Touch, error: TouchErrorResult | null, show: Quantities): Part[] {
  const what = `${touch.code} ${wayOf(touch)}`;
  if (error === null)
    return [paragraph(`**${what}** — its error can't be told: the direction or the feed is not known here.`)];
  const spread = `±${show.error(error.expandedUncertainty)}`;
  if (error.bias === null || error.expectedError === null) {
    return [paragraph(`**${what}: ${spread}**, bias not known`)];
  }
  return [
    paragraph(
      `**${what}: up to ${show.error(error.expectedError)} wrong** — bias ${show.signedError(error.bias)}, ${spread}`,
    ),
    ...goodForParts(error, show),
  ];
}

/** How far it runs on after the trip, against what the probe bears. */
function stop(touch: Touch, error: TouchErrorResult | null, profile: Profile, show: Quantities): Part[] {
  const distance = error?.stoppingDistance ?? null;
  if (!error || distance === null) return [];
  const key = touch.axis === 'z' ? 'probe.overtravel.axial' : 'probe.overtravel.lateral';
  const allowed = error.overtravelLimit / profile.overtravelSafetyFactor;
  const limit = `${show.length(error.overtravelLimit)} of overtravel (${provenance(key, profile)}) ÷ ${profile.overtravelSafetyFactor}`;
  const verdict = distance > allowed ? ' — **too far**' : '';
  return [
    paragraph(
      `Stops ${show.length(distance)} after the trip; ${show.length(allowed)} allowed = ${limit}${verdict}.`,
    ),
  ];
}

function picture(touch: Touch, error: TouchErrorResult | null, profile: Profile, show: Quantities): Part[] {
  const angle = directionAngle(touch.direction);
  const { turn = 0, turnedFrom } = turnOf(touch, profile);
  if (angle === null || !error || touch.feed.value === null || turnedFrom !== undefined) return [];
  const direction = (((angle - turn) % 360) + 360) % 360;
  const svg = radiusPicture(probeOf(profile), { direction, units: show.units });
  return [
    { kind: 'picture', svg, alt: `Effective radius by direction, ${directionName(touch.direction)} marked` },
  ];
}

function details(touch: Touch, error: TouchErrorResult | null, profile: Profile, show: Quantities): Part[] {
  const rows: string[][] = [['direction', directionText(touch), 'this block and the position before it']];
  rows.push([
    'feed',
    touch.feed.value === null ? 'not known' : show.feed(touch.feed.value),
    feedSource(touch),
  ]);
  const spindle = spindleWords(touch);
  if (spindle !== null) rows.push(['spindle', spindle, 'M19, M3 and M4 before this block']);
  if (touch.travel !== null) rows.push(['programmed travel', show.length(touch.travel), 'this block']);
  if (error && error.effectiveRadius !== null) {
    rows.push(['effective radius, true', show.length(error.effectiveRadius), radiusSource(profile)]);
    if (error.diameterUsed !== null) {
      rows.push(['radius used', show.length(error.diameterUsed / 2), usedSource(error, profile)]);
    }
  } else if (error && touch.axis === 'z') {
    rows.push(['effective radius', 'none needed', 'the tool length, set by a touch, holds it']);
  }
  return [{ kind: 'table', head: ['what', 'value', 'from'], rows, right: [1] }];
}

function directionText(touch: Touch): string {
  const angle = directionAngle(touch.direction);
  const name = wayOf(touch);
  return angle === null || touch.axis !== null ? name : `${name}, ${Number(angle.toFixed(1))}°`;
}

function wayOf({ direction, axis }: Touch): string {
  if (direction === null && axis !== null) return `along ${axis.toUpperCase()}, which way is not known`;
  return directionName(direction);
}

function feedSource(touch: Touch): string {
  if (touch.feed.place) return `line ${touch.feed.place.line + 1}`;
  return touch.feed.unset ? 'no F came before on some path' : 'not one value on every path';
}

function usedSource({ diameterPlace }: TouchErrorResult, profile: Profile): string {
  if (diameterPlace) return `half of the diameter in line ${diameterPlace.line + 1}`;
  const { calibration } = profile.probe;
  return calibration === null
    ? 'half of the predicted effective diameter'
    : `half of ${code('probe.calibration.effectiveDiameter')}`;
}

function radiusSource(profile: Profile): string {
  const { calibration } = profile.probe;
  if (calibration === null)
    return `predicted, not calibrated (${code('probe.stylus')}, ${code('probe.seat')})`;
  return `${code('probe.calibration')}${calibration.date === null ? '' : `, ${calibration.date}`}`;
}

/** A touch in a routine that is called from several places goes different ways: each with its error. */
function otherCalls(all: readonly Known[], show: Quantities): Part[] {
  if (all.length < 2) return [];
  const rows = all
    .slice(0, mostCalls)
    .map(({ touch, error }) => [
      touch.calls.length === 0 ? 'not called' : touch.calls.map((line) => line + 1).join(' → '),
      wayOf(touch),
      error?.expectedError == null ? 'not known' : show.error(error.expectedError),
    ]);
  const more = all.length - rows.length;
  return [
    paragraph(`Reached in ${all.length} ways; shown above is the worst.`),
    { kind: 'table', head: ['called in line', 'direction', 'expected error'], rows, right: [2] },
    ...(more > 0 ? [paragraph(`… and ${more} more.`)] : []),
  ];
}

const mostCalls = 12;
