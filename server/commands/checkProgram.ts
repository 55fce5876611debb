import { analyse } from '../analysis/analysis.ts';
import type { CalledFiles } from '../analysis/calledFiles.ts';
import { check } from '../checks/check.ts';
import { fittingFixes } from '../checks/fixAll.ts';
import type { Edit, Finding } from '../checks/rule.ts';
import { dialects } from '../syntax/dialects.ts';
import { Source } from '../syntax/source.ts';
import type { SourceText } from '../syntax/sourceText.ts';
import type { FileProfile } from '../workspace/fileProfile.ts';
import { dialectOf } from '../workspace/openDocument.ts';

export interface Checked {
  readonly source: Source;
  readonly findings: readonly Finding[];
  readonly suppressed: number;
}

/** What the calls of a text lead to in other files. */
export type Calls = (source: Source) => Promise<CalledFiles>;

export async function checkProgram(text: SourceText, profile: FileProfile, calls: Calls): Promise<Checked> {
  const source = Source.from(text, dialects[dialectOf(text, profile)]);
  const analysis = analyse(source, profile.profile, await calls(source));
  const { findings, suppressed } = check(source, analysis, profile.profile);
  return { source, findings, suppressed };
}

/** A fix can make room for another; one that never settles is a fault of ours, and stops here. */
const mostRounds = 10;

/** Checked again after each round of fixes, until none is left that leaves motion as it is. */
export async function fixProgram(
  text: SourceText,
  profile: FileProfile,
  calls: Calls,
): Promise<Checked & { readonly applied: number }> {
  let checked = await checkProgram(text, profile, calls);
  let applied = 0;
  for (let round = 0; round < mostRounds; round++) {
    const fixes = fittingFixes(checked.findings);
    if (fixes.length === 0) break;
    applied += fixes.length;
    checked = await checkProgram(
      edited(
        checked.source.text,
        fixes.flatMap(({ edits }) => edits),
      ),
      profile,
      calls,
    );
  }
  return { ...checked, applied };
}

/** From the end, so that the places of the edits that are still to come stay right. */
function edited(text: SourceText, edits: readonly Edit[]): SourceText {
  return [...edits]
    .sort((a, b) => b.line - a.line || b.start - a.start || b.endLine - a.endLine || b.end - a.end)
    .reduce((result, edit) => result.edit(edit), text);
}
