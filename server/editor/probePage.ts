import { historyOf } from '../probe/calibration/trend.ts';
import { effectiveDiameter } from '../probe/effectiveDiameter.ts';
import { predict } from '../probe/prediction.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Profile, ProfileCalibration } from '../profile/profile.ts';
import type { Page } from '../protocol/requests.ts';
import { fineLength } from '../report/fineLength.ts';
import { historyPicture } from '../report/historyPicture.ts';
import { historySheet } from '../report/historySheet.ts';
import { leftOut, predictionSheet, tripModelNote } from '../report/predictionReport.ts';
import { type Quantities, quantities } from '../report/quantities.ts';
import { radiusPicture } from '../report/radiusPicture.ts';
import { row } from '../report/sheet.ts';
import { type FileProfile, pathOf } from '../workspace/fileProfile.ts';
import type { NamedHistory } from './namedHistory.ts';
import { code, type Part, paragraph, toMarkdown } from './richText.ts';
import { rowParts, sheetParts } from './sheetParts.ts';

const title = 'The probe';
const millisecondsPerDay = 86_400_000;

/** What is known of the probe: its calibration, or what the trip model predicts where nobody calibrated it, and earlier ones. */
export function probePage(
  { uri, profile, problems }: FileProfile,
  day: string,
  history: NamedHistory | null,
): Page {
  const from =
    uri === null ? 'No `probewright.json` was found: built-in values.' : `From ${code(pathOf(uri))}.`;
  const [problem] = problems;
  const broken = problem
    ? [paragraph(`**The profile can’t be used, so built-in values hold:** ${problem.message}`)]
    : [];
  const { calibration } = profile.probe;
  const parts: Part[] = [
    paragraph(`# ${title}`),
    paragraph(from),
    ...broken,
    {
      kind: 'picture',
      svg: radiusPicture(probeOf(profile), { direction: null, units: profile.units }),
      alt: 'Effective radius of the probe by direction of approach',
    },
    ...(calibration === null ? predicted(profile) : calibrated(profile, calibration, day)),
    ...historyParts(history, profile, calibration !== null),
  ];
  return { title, markdown: toMarkdown(parts, { pictures: true }) };
}

function predicted(profile: Profile): Part[] {
  const probe = probeOf(profile);
  const show = quantities(profile.units);
  const { name, rows } = predictionSheet({ probe, profile, prediction: predict(probe), show });
  return [
    paragraph(`**${name}**`),
    ...rowParts(rows),
    paragraph('## Left out'),
    { kind: 'list', items: leftOut },
    paragraph(tripModelNote),
  ];
}

function calibrated(profile: Profile, calibration: ProfileCalibration, day: string): Part[] {
  const show = quantities(profile.units);
  const probe = probeOf(profile);
  const uncertainty = profile.source('probe.calibration.expandedUncertainty') === 'profile';
  const sure = uncertainty ? ` ±${show.error(calibration.expandedUncertainty)}` : '';
  const { date, feed, harmonics } = calibration;
  return rowParts([
    row('effective diameter', `${fineLength(effectiveDiameter(probe).value, show.units)}${sure}`),
    row('actual diameter', fineLength(probe.tipDiameter, show.units)),
    row('calibrated', date === null ? 'on a day that is not stated' : aged(date, day)),
    row('at', feed === null ? 'a feed that is not stated' : show.feed(feed)),
    row('lobes', lobesText(harmonics, show)),
  ]);
}

/** Earlier calibrations with their trend, or how to keep some. */
function historyParts(named: NamedHistory | null, profile: Profile, isCalibrated: boolean): Part[] {
  const heading = paragraph('## Earlier calibrations');
  if (named === null)
    return isCalibrated
      ? [
          heading,
          paragraph(
            'State `"history": "calibrations.jsonl"` under `probe` in the profile: each calibration that is put into it is added there, and its trend stands here.',
          ),
        ]
      : [];
  if ('problem' in named)
    return [heading, paragraph(`**${code(named.name)} can’t be read:** ${named.problem}`)];
  if (named.entries.length === 0) return [heading, paragraph(`None stands in ${code(named.name)} yet.`)];
  const history = historyOf(named.entries);
  return [
    heading,
    {
      kind: 'picture',
      svg: historyPicture(history.counted, profile.units),
      alt: 'Effective diameter of the probe over its calibrations',
    },
    ...sheetParts(historySheet(named.name, history, quantities(profile.units))),
  ];
}

function aged(date: string, day: string): string {
  const days = Math.round((Date.parse(day) - Date.parse(date)) / millisecondsPerDay);
  if (!Number.isFinite(days)) return `on ${date}`;
  if (days < 0) return `on ${date}, which is after today`;
  return `on ${date}, ${days === 0 ? 'today' : `${days} day${days === 1 ? '' : 's'} ago`}`;
}

function lobesText(harmonics: ProfileCalibration['harmonics'], show: Quantities): string {
  if (harmonics === null) return 'never observed: the trip model stands in';
  if (harmonics.length === 0) return 'observed, and none found';
  return harmonics
    .map(({ order, cosine, sine }) => `order ${order}: ${show.error(Math.hypot(cosine, sine))}`)
    .join('; ');
}
