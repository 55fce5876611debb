import { type Diagnostic, DiagnosticSeverity } from 'vscode-languageserver';
import type { ProfileProblem } from '../profile/profile.ts';
import { diagnosticSource, mostDiagnostics } from './diagnostics.ts';

/** The problems of a profile or a setup, in its own file, at the keys that have them. */
export function problemDiagnostics(problems: readonly ProfileProblem[]): Diagnostic[] {
  return problems.slice(0, mostDiagnostics).map((problem) => ({
    range: {
      start: { line: problem.line, character: problem.start },
      end: { line: problem.endLine, character: problem.end },
    },
    severity: DiagnosticSeverity.Error,
    source: diagnosticSource,
    message: problem.message,
  }));
}
