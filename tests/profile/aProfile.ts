import { type Profile, type ProfileProblem, readProfile } from '../../server/profile/profile.ts';

export const ruleIds: readonly string[] = ['retract-missing', 'mode-assumed'];

/** The profile of a value or a text that must be right. */
export function profileOf(file: object | string): Profile {
  const { profile, problems } = readProfile(textOf(file), { path: 'probewright.json', ruleIds });
  if (profile === null) throw new Error(JSON.stringify(problems));
  return profile;
}

/** What is wrong with a value or a text. */
export function problemsOf(file: object | string): readonly ProfileProblem[] {
  return readProfile(textOf(file), { path: 'probewright.json', ruleIds }).problems;
}

export function textOf(file: object | string): string {
  return typeof file === 'string' ? file : JSON.stringify(file);
}
