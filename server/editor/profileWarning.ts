import type { Program } from '../workspace/program.ts';
import { type Part, paragraph } from './richText.ts';

/** Said on every page whose numbers don't come from the person's own profile. */
export function profileWarning({ profile }: Program): Part[] {
  return profile.problems.length > 0
    ? [paragraph('**The profile can’t be used as it stands: these numbers rest on built-in values.**')]
    : [];
}
