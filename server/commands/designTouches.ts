import { designCalibration, mostTouches } from '../probe/calibration/design.ts';
import { designSphere } from '../probe/calibration/designSphere.ts';
import { meanPreTravel } from '../probe/effectiveRadius.ts';
import { probeOf } from '../profile/probeOf.ts';
import {
  type DesignPage,
  designCsv,
  designJson,
  designSheet,
  sphereDesignCsv,
  sphereDesignJson,
  sphereDesignSheet,
} from '../report/designSheet.ts';
import { sheetText } from '../report/sheetText.ts';
import { styleFor } from '../report/style.ts';
import type { CalibrateOptions } from './calibrateOptions.ts';
import { type CalibrationSettings, calibrationSettings } from './calibrationSettings.ts';
import { refuse } from './refuse.ts';
import type { ExitStatus, Terminal } from './terminal.ts';

/** `calibrate --design N`: where to touch, what that will tell, or the table to fill in. */
export function designTouches(options: CalibrateOptions, terminal: Terminal): ExitStatus {
  const settings = calibrationSettings(options, null, terminal);
  if ('faults' in settings) return refuse(terminal, settings.faults);
  const touches = Number(options.design);
  if (options.referenceKind === 'gap' || options.referenceKind === 'block')
    return refuse(terminal, [
      `--design: a ${options.referenceKind} takes the two directions of its axis, each as often as you like; designs are for ring, plug and sphere.`,
    ]);
  if (options.referenceKind === 'sphere') {
    if (touches !== 25)
      return refuse(terminal, [
        '--design: on a sphere 25 touches are offered, those that ISO 10360-5 recommends: --design 25.',
      ]);
    terminal.out(sphereDesign(options, settings, terminal));
    return 0;
  }
  if (!Number.isInteger(touches) || touches < 3 || touches > mostTouches)
    return refuse(terminal, [
      `--design ${options.design}: a whole number of touches from 3 to ${mostTouches}.`,
    ]);
  const spindles = spindlesFor(touches, settings);
  if (spindles.length > touches / 2)
    return refuse(terminal, ['--spindle: two touches or more are needed at each angle.']);
  const designs = designCalibration({
    touches,
    orders: settings.orders,
    spindles,
    spread: settings.repeatability,
    referenceUncertainty: settings.reference?.expandedUncertainty ?? referenceUncertainty(options, settings),
    meanPreTravel: Math.max(0, meanPreTravel(probeOf(settings.profile))),
  });
  const page = pageOf(options.referenceKind, settings, spindles.length);
  terminal.out(
    options.format === 'json'
      ? designJson(designs)
      : options.format === 'csv'
        ? designCsv(designs.best.touches, page)
        : sheetText(designSheet(designs, page), styleFor(terminal.colour), terminal.width),
  );
  return 0;
}

/** The angles that the person named (a whole turn further is the same one), else a reversal where the machine turns its spindle by itself. */
function spindlesFor(touches: number, { spindles, profile }: CalibrationSettings): readonly number[] {
  if (spindles.length > 0)
    return spindles.filter(
      (angle, index) => spindles.findIndex((other) => (angle - other) % 360 === 0) === index,
    );
  return profile.machine.spindleOrientation && touches >= 4 ? [0, 180] : [];
}

function sphereDesign(options: CalibrateOptions, settings: CalibrationSettings, terminal: Terminal): string {
  const design = designSphere(settings.repeatability, referenceUncertainty(options, settings));
  const page = pageOf('sphere', settings, 1);
  if (options.format === 'json') return sphereDesignJson(design);
  return options.format === 'csv'
    ? sphereDesignCsv(design, page)
    : sheetText(sphereDesignSheet(design, page), styleFor(terminal.colour), terminal.width);
}

/** It counts in a design though the size of the reference need not be known. */
function referenceUncertainty(
  { referenceUncertainty: given }: CalibrateOptions,
  { millimetres }: CalibrationSettings,
): number {
  return given === null ? 0 : Number(given) * millimetres;
}

function pageOf(
  reference: DesignPage['reference'],
  settings: CalibrationSettings,
  angles: number,
): DesignPage {
  return {
    ...settings,
    angles,
    reference,
    size: settings.reference?.size ?? null,
    feed: settings.profile.statedMeasuringFeed,
  };
}
