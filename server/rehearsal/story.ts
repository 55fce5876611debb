import { isRotaryKey, unjudged } from './expectations.ts';
import type { Fault } from './faults.ts';
import { missedHow } from './missedHow.ts';
import type { Outcome } from './outcome.ts';
import type { RunRecord } from './runRecord.ts';
import { type UsualRun, visitsOf } from './usualRun.ts';

type Units = 'mm' | 'inch';

const mostSteps = 6;

export interface ToldOf {
  /** null: the undisturbed run. */
  readonly fault: Fault | null;
  readonly usual: UsualRun | null;
  /** A line as a person counts it. */
  lineOf(line: number): string;
  /** Those of the setup. */
  readonly units: Units;
}

/** The shortest story of how a run came to its outcome. */
export function storyOf(record: RunRecord, outcome: Outcome, of: ToldOf): string {
  const isQuiet = outcome.name === 'datum-right' || outcome.name === 'completed';
  const before = isQuiet ? [] : strange(record, of);
  const steps = [...before, ...ending(record, outcome, of)];
  const told = steps.length > mostSteps ? [...steps.slice(0, mostSteps - 2), '…', ...steps.slice(-1)] : steps;
  return told.filter((step, i) => step !== told[i - 1]).join('; ');
}

/** What went otherwise than the program's author had in mind: touches that met nothing, and who went on with them. */
function strange(record: RunRecord, { fault, usual, lineOf }: ToldOf): string[] {
  const texts: string[] = [];
  const visits = visitsOf(record.touches);
  for (const [index, touch] of record.touches.entries()) {
    const at = lineOf(touch.line);
    if (fault?.falseTrips.includes(index + 1)) texts.push(`${at}: the probe trips half-way to the surface`);
    else if (!touch.tripped && !usual?.missed.has(visits[index] ?? '') && isJudged(record, touch.line))
      texts.push(`${at}: ${missedHow(touch)}`);
  }
  for (const line of new Set(record.kept))
    if (!usual?.kept.has(line)) texts.push(`${lineOf(line)} keeps the end of the travel`);
  return texts;
}

/** A guarded move is meant to meet nothing: it is told only where its end was kept or it was the last touch. */
function isJudged(record: RunRecord, line: number): boolean {
  return record.touches.at(-1)?.line === line || record.kept.some((kept) => kept > line);
}

function ending(record: RunRecord, outcome: Outcome, { lineOf, units }: ToldOf): string[] {
  const { end } = record;
  const at = lineOf(end.line);
  switch (outcome.name) {
    case 'collision':
      return [collisionStory(record, at, units)];
    case 'wrong-datum':
      return outcome.wrong.map(({ key, line, error }) => {
        const how = error === null ? 'and nothing was there' : `${amount(key, error, units)} off`;
        return line === null ? `${key} comes out ${how}` : `${lineOf(line)} writes ${key}: ${how}`;
      });
    case 'datum-right':
      return ['every expectation is met'];
    case 'completed':
      return [completedStory(record, outcome)];
    default:
      return [stopStory(record, outcome, at, lineOf)];
  }
}

function collisionStory(record: RunRecord, at: string, units: Units): string {
  const [first] = record.collisions;
  if (record.blocks === 0) return 'the start position stands in the part: the program was not begun';
  const place = first ? ` at ${machinePlace(first.point, units)}` : '';
  if (first?.with === 'overtravel') return `${at}: the stylus is pushed past its overtravel${place}`;
  return `${at}: the ${first?.with ?? 'tip'} meets the part${place}`;
}

function stopStory(
  record: RunRecord,
  outcome: Outcome,
  at: string,
  lineOf: (line: number) => string,
): string {
  const { end } = record;
  const where = outcome.name === 'contact-stop' ? ', the tip against the part' : '';
  if (end.kind === 'alarm') return `${at}: alarm (${end.text})${where}`;
  if (end.kind === 'endless') return `${at}: ${end.text}, still running`;
  if (end.kind === 'not-followed') return `${at}: the rehearsal ends here: ${end.text}${where}`;
  const said = record.messages.at(-1);
  return said ? `${lineOf(said.line)}: stops with “${said.text}”${where}` : `${at}: stops${where}`;
}

function completedStory(record: RunRecord, outcome: Outcome): string {
  if (outcome.unwritten.length > 0) return `ends without writing ${outcome.unwritten.join(', ')}`;
  if (record.touches.length === 0) return 'ends without a touch';
  if (!record.touches.some(({ tripped }) => tripped)) return 'ends, and no touch met anything';
  const keys = unjudged(record, []).join(', ');
  return keys === '' ? 'ends; nothing was expected of it' : `ends; what ${keys} should be is not known`;
}

/** In machine coordinates, as the setup has them. */
function machinePlace(point: readonly number[], units: Units): string {
  const [size, digits] = units === 'mm' ? [1, 3] : [25.4, 4];
  const at = point.map((v, axis) => `${'XYZ'[axis]}${trimmed(v / size, digits)}`);
  return `${at.join(' ')} ${units}, machine coordinates`;
}

function amount(key: string, error: number, units: Units): string {
  return isRotaryKey(key) ? `${trimmed(Math.abs(error), 4)} degrees` : length(error, units);
}

function length(mm: number, units: Units): string {
  return units === 'mm' ? `${trimmed(Math.abs(mm), 4)} mm` : `${trimmed(Math.abs(mm) / 25.4, 5)} inch`;
}

function trimmed(value: number, digits: number): string {
  return String(Number(value.toFixed(digits)));
}
