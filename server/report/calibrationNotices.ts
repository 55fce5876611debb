import type { Calibration } from '../probe/calibration/calibrate.ts';
import { outlierSignificance } from '../probe/calibration/outliers.ts';
import type { CalibrationReport, CalibrationReportHead, Notice } from './calibrationReport.ts';
import { linesText, listed } from './countWords.ts';
import { changesRadius, unseenOrderText } from './observabilityText.ts';

/** What a person has to know beside the numbers, the most urgent first. */
export function calibrationNotices(report: CalibrationReport): readonly Notice[] {
  const notices = [
    ...largerThanTip(report),
    ...outliers(report),
    ...(report.kind === 'round' ? roundNotices(report.result, report) : []),
    ...(report.kind === 'flat' ? flatNotices : []),
    ...(report.kind === 'sphere' ? sphereNotices(report.result) : []),
    ...spread(report),
    ...references(report),
  ];
  const rank = { error: 0, warning: 1, info: 2 };
  return [...notices].sort((a, b) => rank[a.severity] - rank[b.severity]);
}

const notice = (severity: Notice['severity'], message: string, rows: readonly number[] = []): Notice => ({
  severity,
  message,
  rows,
});

function largerThanTip({ result, tipDiameter, show }: CalibrationReport): Notice[] {
  if (tipDiameter === null || result.effectiveDiameter <= tipDiameter + 1e-9) return [];
  const more = result.effectiveDiameter - tipDiameter;
  const cause = `effective diameter larger than the tip by ${show.error(more)}: the pre-travel would be negative, which cannot be. Check the reference size, the tip diameter, and what was touched.`;
  const within = more <= (result.uncertainty?.expandedUncertainty ?? 0);
  return [notice(within ? 'warning' : 'error', within ? `${cause} It is within U.` : cause)];
}

function outliers(report: CalibrationReport): Notice[] {
  if (report.kind === 'flat' || report.result.outliers.length === 0) return [];
  const { outliers: rows, directions } = report.result;
  const sizes = directions
    .filter(({ row }) => rows.includes(row))
    .map(({ residual }) => report.show.signedError(residual));
  const stands = rows.length === 1 ? 'stands' : 'stand';
  return [
    notice(
      'warning',
      `${linesText(rows)} ${stands} out from the others: residual ${listed(sizes)} (studentised; chance alone does so in about ${100 * outlierSignificance} % of all calibrations). In all numbers here all the same. ${report.asking.without(rows)}.`,
      rows,
    ),
  ];
}

function roundNotices(result: Calibration, report: CalibrationReport & { kind: 'round' }): Notice[] {
  const { kind } = report.reference;
  return [
    ...result.notObservable.map((unseen) =>
      notice(
        changesRadius(unseen) ? 'warning' : 'info',
        unseenOrderText(unseen, {
          touches: report.count,
          spindles: result.spindles.length,
          reference: kind,
        }),
      ),
    ),
    ...feeds(result, report),
    ...(result.settled
      ? []
      : [notice('warning', 'the directions did not settle in 20 rounds: check x, y and direction.')]),
    ...(result.modelLacks === true
      ? [
          notice(
            'warning',
            `the residuals are larger than repeated touches spread (F test, 5 %): lobes of other orders, form of the ${kind}, or a drift while touching.`,
          ),
        ]
      : []),
    ...(result.spindles.length < 2 && !result.notObservable.some(({ order }) => order === 1)
      ? [
          notice(
            'info',
            `Run-out of the tip cannot be told from the place of the ${kind} at one spindle angle; it moves the centre found here, not the diameter.`,
          ),
        ]
      : []),
  ];
}

function feeds(result: Calibration, { show, count }: CalibrationReportHead): Notice[] {
  if (result.feeds.length < 2) return [];
  const said = listed(
    result.feeds.map(({ speed, rows }) => {
      const few = rows.length * 4 <= count;
      return few ? `${show.feed(speed * 60)} on ${linesText(rows)}` : show.feed(speed * 60);
    }),
  );
  if (result.latencyUnseen)
    return [
      notice(
        'warning',
        `several feeds (${said}), and what they change cannot be told from the directions: it is in the diameter and the centre. Touch in every direction at each feed, or at one feed only.`,
      ),
    ];
  if (inTwoUnits(result))
    return [
      notice(
        'warning',
        `several feeds (${said}), one 25.4 times the other: the column feed looks like mm on some lines and inches on others. The latency and the diameter rest on it.`,
      ),
    ];
  const { latency } = result;
  const low = latency !== null && latency.value + 2 * (latency.standardUncertainty ?? 0) < 0;
  return [
    notice(
      low ? 'warning' : 'info',
      `several feeds (${said}): the diameter holds for ${show.feed((result.speed ?? 0) * 60)}, that of the first touch.${low ? ' The latency is negative, which cannot be: are the feeds in the right lines?' : ''}`,
    ),
  ];
}

/** Within what rounding of a feed in inches does. */
function inTwoUnits({ feeds: [slow, fast, ...more] }: Pick<Calibration, 'feeds'>): boolean {
  if (slow === undefined || fast === undefined || more.length > 0) return false;
  const ratio = Math.max(slow.speed, fast.speed) / Math.min(slow.speed, fast.speed);
  return Math.abs(ratio / 25.4 - 1) < 0.02;
}

const flatNotices: readonly Notice[] = [
  notice(
    'info',
    'One axis only: odd lobes cancel, even ones are in it, none is observed. Faces out of square to the axis by α show a width of W/cos α.',
  ),
];

function sphereNotices({
  notObservable,
}: CalibrationReport['result'] & { notObservable: readonly string[] }): Notice[] {
  const said: Readonly<Record<string, string>> = {
    axial:
      'The touches cannot tell the axial radius from the lateral one: touch the top as well as the equator, five times or more.',
    'order-3':
      'The touches do not show three-lobed pre-travel: touch the equator in seven directions or more.',
  };
  return notObservable.map((name) => notice('info', said[name] ?? name));
}

function spread({ result, statedSpread }: CalibrationReport): Notice[] {
  if (result.uncertainty === null)
    return [
      notice(
        'warning',
        'no degrees of freedom are left and no repeatability is stated, so there is no uncertainty: touch more, or repeat touches.',
      ),
    ];
  return result.uncertainty.spreadFrom === 'touches'
    ? []
    : [
        notice(
          'warning',
          `the touches leave no degrees of freedom; the uncertainty rests on ${statedSpread}. Touch more, or repeat touches.`,
        ),
      ];
}

function references({ reference, referenceUncertaintyStated, show, asking }: CalibrationReport): Notice[] {
  return [
    ...(referenceUncertaintyStated
      ? []
      : [
          notice(
            'info',
            `The uncertainty of the ${reference.kind} is not stated (${asking.referenceUncertainty}) and not in U.`,
          ),
        ]),
    ...(show.units === 'mm' && reference.size < 3
      ? [
          notice(
            'warning',
            `A ${reference.kind} of ${show.length(reference.size)}: are these inches? ${asking.inches}.`,
          ),
        ]
      : []),
  ];
}
