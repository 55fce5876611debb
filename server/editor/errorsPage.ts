import type { ShowErrorsParams, ShowErrorsResult } from '../protocol/requests.ts';
import { answerRows } from '../report/decisionRows.ts';
import { directionName } from '../report/direction.ts';
import { type Questions, readQuestions } from '../report/errorQuestions.ts';
import type { DatumWithError, TouchWithError } from '../report/errorReport.ts';
import { errorReportOf } from '../report/errorReportOf.ts';
import { fileName } from '../workspace/documentKind.ts';
import type { Program } from '../workspace/program.ts';
import { datumParts } from './hoverDatum.ts';
import { code, type Part, paragraph, toMarkdown } from './richText.ts';
import { rowParts } from './sheetParts.ts';

/** A page of what a program's datums, results and touches are worth, and whether a tolerance can be decided by each. */
export function errorsPage(program: Program | null, { uri, tolerance }: ShowErrorsParams): ShowErrorsResult {
  if (program === null)
    return { kind: 'refused', message: 'No program is open here: open one that touches something.' };
  const asked = questionsOf(program, tolerance);
  if ('problem' in asked) return { kind: 'refused', message: asked.problem };
  const { analysis, profile } = program;
  const report = errorReportOf(fileName(uri), analysis, profile.profile, (file) => file, asked);
  const title = `Errors to expect of ${report.path}`;
  const worth = [...report.datums, ...report.results].sort((a, b) => a.datum.line - b.datum.line);
  const parts = [
    paragraph(`# ${title}`),
    ...(worth.length === 0 ? [paragraph(nothing)] : []),
    ...worth.flatMap((each) => datumSection(program, each)),
    ...touchSection(report.touches),
    ...(report.notKnown.length === 0
      ? []
      : [
          paragraph('## Not followed, so not in these numbers'),
          {
            kind: 'list',
            items: report.notKnown.map(({ place, reason }) => `line ${place.line + 1}: ${reason}`),
          } as const,
        ]),
  ];
  return { kind: 'shown', page: { title, markdown: toMarkdown(parts, { pictures: true }) } };
}

const nothing =
  'No datum is written from a touch and no result is left in a parameter, as far as was followed.';

function questionsOf(
  { profile }: Program,
  tolerance: string | null,
): Questions | { readonly problem: string } {
  const typed = tolerance?.trim() ?? '';
  const asked = { tolerance: typed === '' ? null : typed, ratio: '10', trials: null, seed: '1' };
  const read = readQuestions(asked, profile.profile.units);
  return 'problem' in read
    ? { problem: `${typed} is no tolerance: half of its width, such as 0.01, 0.01mm or 0.0004in.` }
    : read;
}

function datumSection(program: Program, { datum, answers, show }: DatumWithError): Part[] {
  const file = datum.file === null ? '' : ` of ${fileName(datum.file)}`;
  const decided = answerRows(answers, show);
  return [
    paragraph(`## ${code(datum.target)}, line ${datum.line + 1}${file}`),
    ...rowParts(decided),
    // What would help stands beside the tolerance already, where one is asked for.
    ...datumParts(program, [datum], { links: false, better: decided.length === 0 }),
  ];
}

function touchSection(touches: readonly TouchWithError[]): Part[] {
  if (touches.length === 0) return [];
  const rows = touches.map(({ touch, error, show }) => [
    `${touch.line + 1}${touch.file === null ? '' : ` of ${fileName(touch.file)}`}`,
    `${touch.code} ${directionName(touch.direction)}`,
    error?.expectedError == null ? 'not known' : show.error(error.expectedError),
    error?.bias == null ? 'not known' : show.signedError(error.bias),
    error === null ? 'not known' : `±${show.error(error.expandedUncertainty)}`,
    touch.feed.value === null ? 'not known' : show.feed(touch.feed.value),
  ]);
  const head = ['line', 'touch', 'expected error', 'bias along it', 'U', 'feed'];
  return [paragraph('## Each touch'), { kind: 'table', head, rows, right: [0, 2, 3, 4, 5] }];
}
