import type { DialectName } from '../syntax/dialect.ts';
import { bore } from './bore.ts';
import { boss } from './boss.ts';
import { calibrationCheck } from './calibrationCheck.ts';
import { edgeAngle } from './edgeAngle.ts';
import { insideCorner } from './insideCorner.ts';
import { lengthReference } from './lengthReference.ts';
import { levelFace } from './levelFace.ts';
import { outsideCorner } from './outsideCorner.ts';
import { planeTilt } from './planeTilt.ts';
import { rectangularBlock } from './rectangularBlock.ts';
import { rectangularPocket } from './rectangularPocket.ts';
import { reversalCentre } from './reversalCentre.ts';
import { ringCalibration } from './ringCalibration.ts';
import { rotaryAxis } from './rotaryAxis.ts';
import { rotaryCentre } from './rotaryCentre.ts';
import type { Routine } from './routine.ts';
import { slot } from './slot.ts';
import { steppedHeight } from './steppedHeight.ts';
import { surface } from './surface.ts';
import { tipRunout } from './tipRunout.ts';
import { web } from './web.ts';
import type { Form } from './writing.ts';

export { describe } from './describe.ts';
export { documentation } from './documentation.ts';
export { expectedErrors } from './expectedError.ts';
export { writeRoutine } from './writeRoutine.ts';

export const routines: readonly Routine[] = [
  surface,
  bore,
  boss,
  slot,
  web,
  outsideCorner,
  insideCorner,
  steppedHeight,
  rectangularPocket,
  rectangularBlock,
  edgeAngle,
  planeTilt,
  ringCalibration,
  calibrationCheck,
  lengthReference,
  tipRunout,
  reversalCentre,
  rotaryCentre,
  rotaryAxis,
  levelFace,
];

export function routineNamed(name: string): Routine | null {
  return routines.find((routine) => routine.name === name) ?? null;
}

/** `generate --list --format json` of `command-line.md`. */
export interface ListedRoutine {
  readonly name: string;
  readonly title: string;
  readonly summary: string;
  readonly dialects: readonly DialectName[];
  readonly forms: readonly Form[];
}

export function listRoutines(): readonly ListedRoutine[] {
  return routines.map(({ name, title, summary }) => ({
    name,
    title,
    summary,
    dialects: ['rs274ngc', 'macro'],
    forms: ['inline', 'subroutine'],
  }));
}
