import type { ProposeSetupResult } from '../protocol/requests.ts';
import { proposeSetup } from '../rehearsal/proposeSetup.ts';
import { setupText } from '../report/setupText.ts';
import { fileName } from '../workspace/documentKind.ts';
import type { Session } from './session.ts';

/** A setup in which an open program meets what it touches. */
export async function proposeSetupFor(uri: string, session: Session): Promise<ProposeSetupResult> {
  const program = await session.newest(uri);
  if (!program) return none('Open the program first: a setup is proposed for what the editor shows.');
  if (program.notChecked !== null) return none(program.notChecked);
  const { profile, problems } = program.profile;
  const [problem] = problems;
  if (problem) return none(`The probe profile can’t be used: ${problem.message}`);
  const proposal = proposeSetup(program.source, profile, program.called);
  if ('problem' in proposal) return none(`No setup to propose: ${proposal.problem}`);
  return { kind: 'proposed', text: setupText(proposal, fileName(uri)) };
}

function none(message: string): ProposeSetupResult {
  return { kind: 'none', message };
}
