import { stemMaterials } from '../probe/materials.ts';
import type { Prediction } from '../probe/prediction.ts';
import type { Probe } from '../probe/probe.ts';
import type { Profile } from '../profile/profile.ts';
import type { Quantities } from './quantities.ts';
import { row, type Sheet } from './sheet.ts';
import { rowsText } from './sheetText.ts';
import { printable, type Style } from './style.ts';
import { wrapIndented } from './wrap.ts';

export interface PredictionReport {
  readonly probe: Probe;
  readonly profile: Profile;
  readonly prediction: Prediction;
  readonly show: Quantities;
}

/** For other programs: mm, N, degrees. */
export function predictionJson({ probe, profile, prediction }: PredictionReport): string {
  const { tipDiameter, stylus, seat } = probe;
  const page = {
    profile: profile.path,
    calibrated: false,
    inputs: { tipDiameter, stylus, seat },
    ...prediction,
    leftOut,
  };
  return `${JSON.stringify(page, null, 2)}\n`;
}

/** What a prediction does not know (`error-model.md` section 2). */
export const leftOut: readonly string[] = [
  'compliance of module, holder and machine: a prediction is a lower bound, real pre-travel is commonly 1.3 to 2 times it',
  'friction and early opening of the contacts: the largest over the smallest pre-travel is under 2',
  'oblique touches and friction at the ball',
  'form of ball and ring',
  'trips by acceleration',
  'drift since a calibration',
  'latency: the feed times machine.tripLatency comes on top',
];

export function predictionText(report: PredictionReport, style: Style, width: number): string {
  const { name, about, rows } = predictionSheet(report);
  const gaps = leftOut.map((text) => wrapIndented(`- ${text}`, width, 8));
  return [
    `${style.bold(style.yellow(name))}  ${style.dim(printable(about))}\n\n`,
    rowsText(rows, style, width),
    `\n${style.bold('Left out')}\n`,
    ...gaps,
    '\n',
    wrapIndented(tripModelNote, width, 0),
  ].join('');
}

export function predictionSheet(report: PredictionReport): Sheet {
  const { path } = report.profile;
  return {
    name: 'Predicted, not calibrated',
    about: path === null ? 'built-in values, no profile found' : `profile ${path}`,
    rows: rowsOf(report).map(([label, text]) => row(label, text)),
    notes: [],
  };
}

/** What a prediction rests on. */
export const tripModelNote =
  'The trip model: three supports at 120° seat the stylus by a spring, and the stem bends until the force lifts it off one or two of them (statics of Estler et al., Precision Engineering 19(2) (1996) 85-97). Calibrate on a ring before you rely on it: probewright calibrate.';

function rowsOf({ probe, profile, prediction, show }: PredictionReport): [string, string][] {
  const { stylus, seat } = probe;
  const { force, preTravel } = prediction;
  const modulus = stemMaterials[stylus.material];
  const key = (name: string) => (profile.source(name) === 'profile' ? '' : ' (built in)');
  return [
    ['tip', `${show.length(probe.tipDiameter)} actual diameter${key('probe.tipDiameter')}`],
    [
      'stylus',
      `${show.length(stylus.length)} long, stem ${show.length(stylus.stemDiameter)} of ${stylus.material.replace('-', ' ')} (${modulus.value / 1000} GPa)`,
    ],
    ...thickStem(probe, show),
    ['seat', `supports on a radius of ${show.length(seat.radius)}, seated by ${plain(seat.preload)} N`],
    [
      'trip force',
      `${plain(force.low)} N in three directions, ${plain(force.high)} N in three between, ${plain(force.mean)} N on the mean`,
    ],
    [
      'pre-travel',
      `${show.error(preTravel.low)} least, ${show.error(preTravel.high)} largest, ${show.error(preTravel.mean)} mean, standard uncertainty of the mean ${show.error(prediction.standardUncertainty)} (mean/√3)`,
    ],
    ['along the axis', show.error(prediction.axialPreTravel)],
    [
      'effective diam.',
      `${show.length(prediction.effectiveDiameter)} ±${show.error(prediction.expandedUncertainty)} (U, k = ${prediction.coverageFactor.toFixed(2)})`,
    ],
    [
      'lobes of radius',
      prediction.harmonics
        .map((each) => `order ${each.order} ${show.error(Math.hypot(each.cosine, each.sine))}`)
        .join(', '),
    ],
    [
      'along the axes',
      prediction.directions
        .map(
          ({ effectiveRadius }, index) =>
            `${['X+', 'Y+', 'X−', 'Y−'][index]} ${show.length(effectiveRadius)}`,
        )
        .join(', '),
    ],
    ['seat angle', seatText(prediction, seat.angle)],
  ];
}

function thickStem({ tipDiameter, stylus }: Probe, show: Quantities): [string, string][] {
  if (stylus.stemDiameter <= tipDiameter) return [];
  return [
    [
      'warning',
      `the stem is thicker than the tip by ${show.length(stylus.stemDiameter - tipDiameter)}: along a wall it touches before the ball does`,
    ],
  ];
}

function seatText({ seatAngleKnown }: Prediction, angle: number | null): string {
  return seatAngleKnown
    ? `a low-force direction ${angle}° from X+`
    : 'unknown: a low-force direction is taken to be X+, and the lobes stand in the uncertainty of every error (state probe.seat.angle)';
}

function plain(value: number): string {
  return String(Number(value.toPrecision(3)));
}
