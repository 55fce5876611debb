import { type Diagnostic, DiagnosticSeverity } from 'vscode-languageserver';
import type { FileProfile } from '../workspace/fileProfile.ts';
import { diagnosticSource, mostDiagnostics } from './diagnostics.ts';

/** The problems of a profile, in its own file, at the keys that have them. */
export function profileDiagnostics(profile: FileProfile): Diagnostic[] {
  return profile.problems.slice(0, mostDiagnostics).map((problem) => ({
    range: {
      start: { line: problem.line, character: problem.start },
      end: { line: problem.endLine, character: problem.end },
    },
    severity: DiagnosticSeverity.Error,
    source: diagnosticSource,
    message: problem.message,
  }));
}
