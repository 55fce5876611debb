import { analyse } from '../analysis/analysis.ts';
import { type CalledFiles, noCalledFiles } from '../analysis/calledFiles.ts';
import type { Touch } from '../analysis/model.ts';
import type { Setup } from '../part/setup.ts';
import type { Profile } from '../profile/profile.ts';
import type { Source } from '../syntax/source.ts';
import { bestScouting, type Found } from './bestScouting.ts';
import { outcomeNames } from './outcome.ts';
import { type Rehearsal, rehearse, stageFor } from './rehearse.ts';
import { readBack } from './setupFile.ts';
import { shapesOf } from './shapesOf.ts';
import { standingSetup } from './standingSetup.ts';

/** A setup in which a program meets what it touches, and what becomes of the program in it, undisturbed. */
export interface Proposal {
  readonly setup: Setup;
  readonly rehearsal: Rehearsal;
  /** The part is one shape that follows from the touches, a target for each of them, or what a routine was written for. */
  readonly part: 'shape' | 'targets' | 'nominal';
}

/** How far above its work offset the tip may stand at the start, mm, the likeliest first. */
const heights = [50, 20, 5] as const;

/**
 * Proposes a setup from what a program touches, or says in words why there is none. The part is put where the touches
 * meet it at the middle of their travel; where the program itself does not take that for its part (a width out of its
 * limits), at the share of the travel where it does.
 */
export function proposeSetup(
  source: Source,
  profile: Profile,
  called: CalledFiles = noCalledFiles,
): Proposal | { readonly problem: string } {
  const analysis = analyse(source, profile, called);
  const touches = [...analysis.touches, ...analysis.elsewhere.touches];
  if (touches.length === 0)
    return { problem: 'the program reaches no touch, so there is no part to propose.' };
  const units = unitsOf(touches, profile);
  let best: (Found & { readonly setup: Setup }) | null = null;
  for (const height of heights) {
    const setup = standingSetup(source, called, profile, { units, height });
    const stage = stageFor(source, setup, profile, called);
    const found = { ...bestScouting(stage, analysis, profile.probe.tipDiameter / 2), setup };
    if (best === null || found.rank > best.rank) best = found;
    if (best.isAllRight) break;
  }
  if (best === null || best.met === 0) return { problem: `no part can be proposed: ${whyNot(best)}.` };
  const tried = (setup: Setup) => rehearse(source, setup, profile, { called, faults: [] });
  return shaped(best, best.setup, tried, profile.probe.tipDiameter / 2);
}

/** Inches where the program's touches are in inches alone, mm where in mm; else the profile's. */
function unitsOf(touches: readonly Touch[], profile: Profile): 'mm' | 'inch' {
  const codes = new Set(touches.flatMap(({ modes }) => modes.units));
  if (codes.size !== 1) return profile.units;
  return codes.has('G20') ? 'inch' : codes.has('G21') ? 'mm' : profile.units;
}

function whyNot(found: Found | null): string {
  const end = found?.scouted.record.end;
  if (!end) return 'the program cannot be run';
  const words = 'text' in end ? `${end.kind.replace('-', ' ')}, ${end.text}` : end.kind.replace('-', ' ');
  return `the program ends before it meets anything (line ${end.line + 1}: ${words})`;
}

/** The likeliest shape in which the program fares as well as with a target for each place; else those targets. */
function shaped(
  { scouted }: Found,
  standing: Setup,
  tried: (setup: Setup) => Rehearsal,
  radius: number,
): Proposal | Unreadable {
  const onTargets = expecting({ ...standing, solids: scouted.targets }, tried);
  if ('problem' in onTargets) return onTargets;
  const wanted = faring(onTargets.rehearsal);
  for (const solids of shapesOf(scouted.record, radius)) {
    const proposal = expecting({ ...standing, solids }, tried);
    if (!('problem' in proposal) && faring(proposal.rehearsal) >= wanted)
      return { ...proposal, part: 'shape' };
  }
  return { ...onTargets, part: 'targets' };
}

interface Unreadable {
  readonly problem: string;
}

/** The setup, as its file will have it, with what follows from the touches as what is expected. */
function expecting(guess: Setup, tried: (setup: Setup) => Rehearsal): Omit<Proposal, 'part'> | Unreadable {
  const bare = readBack(guess);
  if (bare.setup === null) return unreadable(bare.problems);
  const found = tried(bare.setup).expectations;
  const expect = new Map(found.map(({ key, value, tolerance }) => [key, { value, tolerance }]));
  const { setup, problems } = readBack({ ...guess, expect });
  return setup === null ? unreadable(problems) : { setup, rehearsal: tried(setup) };
}

function unreadable(problems: readonly { readonly message: string }[]): Unreadable {
  return { problem: `no part can be proposed where the program touches: ${problems[0]?.message}` };
}

/** How well a run went: the better, the higher. */
function faring({ undisturbed: { record, outcome } }: Rehearsal): number {
  const met = record.touches.filter(({ tripped }) => tripped).length;
  return 10_000 * outcomeNames.indexOf(outcome.name) + met;
}
