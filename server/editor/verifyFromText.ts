import type { VerifyCalibrationParams, VerifyCalibrationResult } from '../protocol/calibration.ts';
import { inTheEditor } from '../report/asking.ts';
import { calibrationBasis } from '../report/calibrationBasis.ts';
import { verificationOf } from '../report/verificationOf.ts';
import { verdictText, verificationSheet } from '../report/verificationSheet.ts';
import { fileName } from '../workspace/documentKind.ts';
import type { FileProfile } from '../workspace/fileProfile.ts';
import { paragraph, toMarkdown } from './richText.ts';
import { sheetParts } from './sheetParts.ts';

/** Whether the calibration of the profile still holds, by the text of a file of touches, as a page. */
export function verifyFromText(
  params: VerifyCalibrationParams,
  { profile, problems }: FileProfile,
): VerifyCalibrationResult {
  const [problem] = problems;
  if (problem) return { kind: 'refused', problems: [`The probe profile can’t be used: ${problem.message}`] };
  const basis = calibrationBasis(profile);
  const { millimetres, show } = basis;
  const name = fileName(params.uri);
  const result = verificationOf(name, params.text, profile, {
    ...basis,
    reference: {
      kind: params.kind,
      size: params.size * millimetres,
      expandedUncertainty: (params.expandedUncertainty ?? 0) * millimetres,
    },
    without: [],
    asking: inTheEditor,
  });
  if ('faults' in result) return { kind: 'refused', problems: result.faults };
  const title = `Verification by ${name}`;
  const parts = [paragraph(`# ${title}`), ...sheetParts(verificationSheet(name, result, show))];
  return {
    kind: 'verified',
    page: { title, markdown: toMarkdown(parts, { pictures: false }) },
    summary: verdictText(result, show),
    holds: result.verdict === 'holds',
  };
}
