import type { Finding } from '../checks/rule.ts';
import type { CheckedProgram, CheckReport } from './checkReport.ts';

/**
 * Test results in the XML that build servers read (common practice, no standard): a suite a program, a case a finding,
 * failed where the finding is an error or a warning; a program without findings is one passed case.
 */
export function checkJunit(): CheckReport {
  return {
    *begin() {
      yield '<?xml version="1.0" encoding="UTF-8"?>\n<testsuites name="probewright">\n';
    },
    *program(program: CheckedProgram) {
      const failures = program.findings.filter(({ severity }) => severity !== 'info').length;
      const tests = Math.max(1, program.findings.length);
      yield `  <testsuite name="${xml(program.path)}" tests="${tests}" failures="${failures}" errors="0" skipped="0">\n`;
      if (program.findings.length === 0)
        yield `    <testcase name="no findings" classname="${xml(program.path)}"/>\n`;
      for (const finding of program.findings) yield testCase(program.path, finding);
      yield '  </testsuite>\n';
    },
    *end() {
      yield '</testsuites>\n';
    },
  };
}

function testCase(path: string, { rule, severity, message, place }: Finding): string {
  const at = `${path}:${place.line + 1}:${place.start + 1}`;
  const head = `    <testcase name="${xml(`${rule} at ${place.line + 1}:${place.start + 1}`)}" classname="${xml(path)}">`;
  const body =
    severity === 'info'
      ? `<system-out>${xml(`${at} info ${message}`)}</system-out>`
      : `<failure type="${severity}" message="${xml(message)}">${xml(`${at} ${severity} ${rule}\n${message}`)}</failure>`;
  return `${head}${body}</testcase>\n`;
}

/** XML 1.0 (2.2 and 2.4): the five characters that mean something, and those that may not stand in a document. */
function xml(text: string): string {
  return text
    .replace(/[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]/gu, '\ufffd')
    .replace(/[&<>"'\n\r\t]/g, (unit) => entities[unit] ?? unit);
}

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&apos;',
  '\n': '&#10;',
  '\r': '&#13;',
  '\t': '&#9;',
};
