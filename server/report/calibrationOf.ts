import { calibrate } from '../probe/calibration/calibrate.ts';
import { calibrateFlat } from '../probe/calibration/flat.ts';
import { implausibleDirections, implausibleSize } from '../probe/calibration/implausible.ts';
import { implausibleSphere } from '../probe/calibration/implausibleSphere.ts';
import { type MillimetresPer, readSphereTouches, readTouches } from '../probe/calibration/readTouches.ts';
import { calibrateSphere, type SphereTouch } from '../probe/calibration/sphere.ts';
import type { CalibrationTouch, Reference, ReferenceKind, Spread } from '../probe/calibration/touches.ts';
import type { Asking } from './asking.ts';
import { refusalText } from './calibrationRefusal.ts';
import type { CalibrationReport, CalibrationReportHead } from './calibrationReport.ts';
import type { Quantities } from './quantities.ts';
import { type Faults, touchesOf } from './touchesOf.ts';

/** What is known beside the touches; lengths in mm. */
export interface CalibrationRequest {
  readonly reference: Reference<ReferenceKind | 'sphere'>;
  readonly referenceUncertaintyStated: boolean;
  /** Actual diameter of the tip; null: not stated. */
  readonly tipDiameter: number | null;
  /** Orders of lobes to look for. */
  readonly orders: readonly number[];
  /** Lines of touches to leave out. */
  readonly without: readonly number[];
  /** Of the unit that the file is written in. */
  readonly millimetres: MillimetresPer;
  readonly show: Quantities;
  /** Taken where the touches leave no degrees of freedom, and what it rests on. */
  readonly repeatability: Spread;
  readonly statedSpread: string;
  readonly asking: Asking;
}

/**
 * The calibration that the text of a CSV file gives (`readTouches`, for a sphere `readSphereTouches`), or why there is none,
 * a sentence a fault that names the file and the line.
 */
export function calibrationOf(
  name: string,
  text: string,
  request: CalibrationRequest,
): CalibrationReport | Faults {
  const { reference, without, millimetres } = request;
  if (reference.kind === 'sphere') {
    const read = touchesOf(name, readSphereTouches(text, millimetres), without);
    return 'faults' in read
      ? read
      : sphereReport(name, read.touches, { ...reference, kind: 'sphere' }, request);
  }
  const read = touchesOf(name, readTouches(text, millimetres), without);
  if ('faults' in read) return read;
  const flat = reference.kind === 'gap' || reference.kind === 'block';
  return (flat ? flatReport : roundReport)(
    name,
    read.touches,
    { ...reference, kind: reference.kind },
    request,
  );
}

function head(name: string, count: number, request: CalibrationRequest): CalibrationReportHead {
  return { ...request, path: name, count, leftOut: request.without };
}

function roundReport(
  name: string,
  touches: readonly CalibrationTouch[],
  reference: Reference,
  request: CalibrationRequest,
): CalibrationReport | Faults {
  const refused = (refusal: Parameters<typeof refusalText>[0]) =>
    refusedWith(name, refusal, reference, request);
  if (touches.length >= 3) {
    const implausible = implausibleDirections(touches, reference);
    if (implausible !== null) return refused(implausible);
  }
  const result = calibrate(touches, reference, request);
  if ('kind' in result) return refused(result);
  const size = implausibleSize(result.effectiveDiameter / 2, reference, request.tipDiameter);
  if (size !== null) return refused(size);
  return { ...head(name, touches.length, request), kind: 'round', result, reference };
}

function flatReport(
  name: string,
  touches: readonly CalibrationTouch[],
  reference: Reference,
  request: CalibrationRequest,
): CalibrationReport | Faults {
  const result = calibrateFlat(touches, reference, request);
  if ('kind' in result) return refusedWith(name, result, reference, request);
  return { ...head(name, touches.length, request), kind: 'flat', result, reference };
}

function sphereReport(
  name: string,
  touches: readonly SphereTouch[],
  reference: Reference<'sphere'>,
  request: CalibrationRequest,
): CalibrationReport | Faults {
  const refused = (refusal: Parameters<typeof refusalText>[0]) =>
    refusedWith(name, refusal, reference, request);
  if (touches.length < 4) return refused({ kind: 'too-few', touches: touches.length, needed: 4 });
  const implausible = implausibleSphere(touches);
  if (implausible !== null) return refused(implausible);
  const result = calibrateSphere(touches, reference, request);
  if (result === null) return refused({ kind: 'one-sided', condition: Infinity });
  const size = implausibleSize(result.lateralRadius, reference, request.tipDiameter);
  if (size !== null) return refused(size);
  return { ...head(name, touches.length, request), kind: 'sphere', result, reference };
}

function refusedWith(
  name: string,
  refusal: Parameters<typeof refusalText>[0],
  reference: Parameters<typeof refusalText>[1],
  { show, asking }: CalibrationRequest,
): Faults {
  return { faults: refusalText(refusal, reference, show, asking).map((text) => `${name}: ${text}`) };
}
