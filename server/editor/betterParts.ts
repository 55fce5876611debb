import { datumValue } from '../analysis/error.ts';
import type { Datum } from '../analysis/model.ts';
import { tenToOne } from '../probe/goodFor.ts';
import { type Improvement, waysOnThisMachine, whatWouldHelp } from '../probe/improvement.ts';
import { meansOf } from '../profile/meansOf.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import { changeText } from '../report/changeWords.ts';
import type { Quantities } from '../report/quantities.ts';
import { type Part, paragraph } from './richText.ts';

/** More of them say less. */
const mostWays = 4;

/** What would make a value better, the largest gain first, and which tolerance that would decide. */
export function betterParts(datum: Datum, profile: Profile, show: Quantities): Part[] {
  const value = datumValue(datum, profile);
  if (value === null) return [];
  const ways = whatWouldHelp(probeOf(profile), value, meansOf(profile), waysOnThisMachine);
  if (ways.length === 0) return [];
  return [
    paragraph('What would make it better, each alone:'),
    { kind: 'list', items: ways.slice(0, mostWays).map((way) => wayText(way, show)) },
  ];
}

function wayText({ changes, expectedError }: Improvement, show: Quantities): string {
  const what = changes.map((change) => changeText(change, show)).join('; ');
  return `${what}: up to ${show.error(expectedError)} wrong, good for ${show.tolerance(tenToOne(expectedError))} (10:1)`;
}
