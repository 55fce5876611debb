import { effectiveDiameter } from '../probe/effectiveDiameter.ts';
import { predict } from '../probe/prediction.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Page } from '../protocol/requests.ts';
import { fineLength } from '../report/fineLength.ts';
import { predictionText } from '../report/predictionReport.ts';
import { quantities } from '../report/quantities.ts';
import { radiusPicture } from '../report/radiusPicture.ts';
import { styleFor } from '../report/style.ts';
import { type FileProfile, pathOf } from '../workspace/fileProfile.ts';
import { code, type Part, paragraph, toMarkdown } from './richText.ts';

const title = 'The probe';
const millisecondsPerDay = 86_400_000;

/** What is known of the probe: its calibration, or what the trip model predicts where nobody calibrated it. */
export function probePage({ uri, profile, problems }: FileProfile, day: string): Page {
  const probe = probeOf(profile);
  const show = quantities(profile.units);
  const picture: Part = {
    kind: 'picture',
    svg: radiusPicture(probe, { direction: null, units: profile.units }),
    alt: 'Effective radius of the probe by direction of approach',
  };
  const from =
    uri === null ? 'No `probewright.json` was found: built-in values.' : `From ${code(pathOf(uri))}.`;
  const parts: Part[] = [paragraph(`# ${title}`), paragraph(from)];
  const [problem] = problems;
  if (problem)
    parts.push(paragraph(`**The profile can’t be used, so built-in values hold:** ${problem.message}`));
  const { calibration } = profile.probe;
  if (calibration === null) {
    const text = predictionText({ probe, profile, prediction: predict(probe), show }, styleFor(false), 88);
    parts.push(picture, { kind: 'figures', text });
    return { title, markdown: toMarkdown(parts, { pictures: true }) };
  }
  const { value, uncertainty } = {
    value: effectiveDiameter(probe).value,
    uncertainty: calibration.expandedUncertainty,
  };
  const rows = [
    [
      'effective diameter',
      `${fineLength(value, show.units)}${uncertainty === null ? '' : ` ±${show.error(uncertainty)}`}`,
    ],
    ['actual diameter', fineLength(probe.tipDiameter, show.units)],
    ['calibrated', calibration.date === null ? 'on a day that is not stated' : aged(calibration.date, day)],
    ['at', calibration.feed === null ? 'a feed that is not stated' : show.feed(calibration.feed)],
    ['lobes', lobesText(calibration.harmonics, show)],
  ];
  parts.push(picture, { kind: 'table', head: ['', ''], rows, right: [] });
  return { title, markdown: toMarkdown(parts, { pictures: true }) };
}

function aged(date: string, day: string): string {
  const days = Math.round((Date.parse(day) - Date.parse(date)) / millisecondsPerDay);
  if (!Number.isFinite(days)) return `on ${date}`;
  if (days < 0) return `on ${date}, which is after today`;
  return `on ${date}, ${days === 0 ? 'today' : `${days} day${days === 1 ? '' : 's'} ago`}`;
}

function lobesText(
  harmonics: readonly { readonly order: number; readonly cosine: number; readonly sine: number }[] | null,
  show: ReturnType<typeof quantities>,
): string {
  if (harmonics === null) return 'never observed: the trip model stands in';
  if (harmonics.length === 0) return 'observed, and none found';
  return harmonics
    .map(({ order, cosine, sine }) => `order ${order}: ${show.error(Math.hypot(cosine, sine))}`)
    .join('; ');
}
