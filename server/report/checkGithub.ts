import type { Finding, Severity } from '../checks/rule.ts';
import type { CheckedProgram, CheckReport } from './checkReport.ts';
import { rangeOf } from './range.ts';

const commands: Readonly<Record<Severity, string>> = { error: 'error', warning: 'warning', info: 'notice' };

/** Workflow commands that a hosted build turns into annotations beside the lines. */
export function checkGithub(): CheckReport {
  return {
    *begin() {},
    *program(program: CheckedProgram) {
      for (const finding of program.findings) yield annotation(program.path, finding);
    },
    *end() {},
  };
}

function annotation(path: string, finding: Finding): string {
  const { start, end } = rangeOf(finding.place);
  const properties = [
    `file=${property(path)}`,
    `line=${start.line}`,
    `col=${start.column}`,
    `endLine=${end.line}`,
    `endColumn=${end.column}`,
    `title=${property(`probewright ${finding.rule}`)}`,
  ];
  return `::${commands[finding.severity]} ${properties.join(',')}::${data(finding.message)}\n`;
}

function data(text: string): string {
  return text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');
}

function property(text: string): string {
  return data(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
}
