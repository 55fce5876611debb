import { designCalibration, mostTouches } from '../probe/calibration/design.ts';
import { designSphere } from '../probe/calibration/designSphere.ts';
import { meanPreTravel } from '../probe/effectiveRadius.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import type { PlanCalibrationParams, PlanCalibrationResult } from '../protocol/calibration.ts';
import { inTheEditor } from '../report/asking.ts';
import { calibrationBasis } from '../report/calibrationBasis.ts';
import {
  type DesignPage,
  designCsv,
  designSheet,
  sphereDesignCsv,
  sphereDesignSheet,
} from '../report/designSheet.ts';
import type { Sheet } from '../report/sheet.ts';
import { paragraph, toMarkdown } from './richText.ts';
import { sheetParts } from './sheetParts.ts';

/** Where to touch and what that will tell, before anything is touched, with the table to fill in. */
export function calibrationPlan(params: PlanCalibrationParams, profile: Profile): PlanCalibrationResult {
  const { kind, touches } = params;
  const basis = calibrationBasis(profile);
  const spindles = spindlesFor(params, profile);
  const page: DesignPage = {
    ...basis,
    reference: kind,
    size: null,
    referenceUncertaintyStated: false,
    angles: Math.max(1, spindles.length),
    feed: profile.statedMeasuringFeed,
    asking: inTheEditor,
  };
  if (kind === 'sphere') {
    if (touches !== 25) return refused('On a sphere 25 touches are offered, those of ISO 10360-5.');
    const design = designSphere(basis.repeatability, 0);
    return planned(sphereDesignSheet(design, page), sphereDesignCsv(design, page));
  }
  if (!Number.isInteger(touches) || touches < 3 || touches > mostTouches)
    return refused(`A whole number of touches from 3 to ${mostTouches} is wanted.`);
  if (spindles.length > touches / 2) return refused('Two touches or more are needed at each spindle angle.');
  const designs = designCalibration({
    touches,
    orders: [3],
    spindles,
    spread: basis.repeatability,
    referenceUncertainty: 0,
    meanPreTravel: Math.max(0, meanPreTravel(probeOf(profile))),
  });
  return planned(designSheet(designs, page), designCsv(designs.best.touches, page));
}

/** The angles that the person named, else a reversal where the machine turns its spindle by itself. */
function spindlesFor({ touches, spindles }: PlanCalibrationParams, profile: Profile): readonly number[] {
  if (spindles.length > 0)
    return spindles.filter(
      (angle, index) => spindles.findIndex((other) => (angle - other) % 360 === 0) === index,
    );
  return profile.machine.spindleOrientation && touches >= 4 ? [0, 180] : [];
}

function planned(sheet: Sheet, table: string): PlanCalibrationResult {
  const title = 'Plan of a calibration';
  const markdown = toMarkdown([paragraph(`# ${title}`), ...sheetParts(sheet)], { pictures: false });
  return { kind: 'planned', page: { title, markdown }, table };
}

function refused(problem: string): PlanCalibrationResult {
  return { kind: 'refused', problems: [problem] };
}
