import type { Finding } from '../checks/rule.ts';
import type { CheckedProgram, CheckHeader, CheckReport, CheckSummary } from './checkReport.ts';
import { rangeOf, rangeOfEdit } from './range.ts';

/** The stable contract for other programs; one program a line, its findings written one by one. */
export function checkJson(header: CheckHeader): CheckReport {
  let programs = 0;
  return {
    *begin() {
      yield `{"version":${JSON.stringify(header.version)},"profile":${JSON.stringify(header.profile)},"files":[`;
    },
    *program(program: CheckedProgram) {
      yield `${programs++ === 0 ? '\n' : ',\n'}{"path":${JSON.stringify(program.path)}`;
      yield `,"dialect":${JSON.stringify(program.dialect)},"findings":[`;
      let first = true;
      for (const finding of program.findings) {
        yield (first ? '' : ',') + JSON.stringify(findingJson(finding));
        first = false;
      }
      yield ']}';
    },
    *end({ error, warning, info, suppressed }: CheckSummary) {
      yield `\n],"summary":${JSON.stringify({ error, warning, info, suppressed })}}\n`;
    },
  };
}

function findingJson(finding: Finding): object {
  return {
    rule: finding.rule,
    severity: finding.severity,
    message: finding.message,
    range: rangeOf(finding.place),
    related: finding.related.map(({ message, place }) => ({ message, range: rangeOf(place) })),
    fixes: finding.fixes.map(({ title, edits }) => ({
      title,
      edits: edits.map((edit) => ({ range: rangeOfEdit(edit), text: edit.text })),
    })),
  };
}
