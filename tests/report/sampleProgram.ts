import type { Finding } from '../../server/checks/rule.ts';
import type { CheckedProgram, CheckReport, CheckSummary } from '../../server/report/checkReport.ts';

/** A program with one finding of each severity; its path and message hold what formats must escape. */
const text = ['G21 G90', 'G38.2 X-20 F40', 'G1 X-25', '\tG38.3 Z-5 (\u{1f600} "a" & <b>)', 'M2'];

export const further: Finding = {
  rule: 'no-retract-after-trip',
  severity: 'error',
  message: 'The next motion goes 5 mm further in: 100 % of it, after the trip.',
  place: { line: 1, start: 0, end: 5 },
  related: [{ message: 'the next motion', place: { line: 2, start: 0, end: 7 } }],
  fixes: [
    {
      title: 'Insert a retract',
      edits: [{ line: 2, start: 0, endLine: 2, end: 0, text: 'G1 X-18\n' }],
      changesMotion: true,
    },
  ],
};

export const assumed: Finding = {
  rule: 'mode-assumed',
  severity: 'warning',
  message: 'Nothing before says <G94> & "per minute".',
  place: { line: 3, start: 1, end: 6 },
  related: [],
  fixes: [
    {
      title: 'Say G94',
      edits: [{ line: 0, start: 7, endLine: 0, end: 7, text: ' G94' }],
      changesMotion: false,
    },
  ],
};

export const noted: Finding = {
  rule: 'unreachable-block',
  severity: 'info',
  message: 'No path gets here.',
  place: { line: 4, start: 0, end: 2 },
  related: [],
  fixes: [],
};

export const sampleProgram: CheckedProgram = {
  path: 'jobs/left, edge:1.ngc',
  dialect: 'rs274ngc',
  findings: [further, assumed, noted],
  line: (index) => text[index] ?? '',
};

export const cleanProgram: CheckedProgram = { ...sampleProgram, path: 'jobs/bore.ngc', findings: [] };

const summary: CheckSummary = { error: 1, warning: 1, info: 1, suppressed: 2, known: 0, programs: 2 };

export function written(
  report: CheckReport,
  programs = [sampleProgram, cleanProgram],
  end = summary,
): string {
  const pieces = [...report.begin()];
  for (const program of programs) pieces.push(...report.program(program));
  return [...pieces, ...report.end(end)].join('');
}
