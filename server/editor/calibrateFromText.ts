import path from 'node:path';
import { ruleIds } from '../checks/registry.ts';
import { appendToHistory } from '../probe/calibration/readHistory.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import { profileWithoutCalibration, writeCalibration } from '../profile/writeCalibration.ts';
import type { CalibrateParams, CalibrateResult, ProfileWithIt } from '../protocol/calibration.ts';
import { inTheEditor } from '../report/asking.ts';
import { calibrationBasis } from '../report/calibrationBasis.ts';
import { calibrationEntry, unfitForProfile } from '../report/calibrationEntry.ts';
import { calibrationOf } from '../report/calibrationOf.ts';
import { calibrationPicture } from '../report/calibrationPicture.ts';
import type { CalibrationReport } from '../report/calibrationReport.ts';
import { calibrationSheet } from '../report/calibrationSheet.ts';
import { fineLength } from '../report/fineLength.ts';
import { historyEntry } from '../report/historyEntry.ts';
import { fileName } from '../workspace/documentKind.ts';
import { pathOf } from '../workspace/fileProfile.ts';
import { type NamedHistory, namedHistory } from './namedHistory.ts';
import { type Part, paragraph, toMarkdown } from './richText.ts';
import type { Session } from './session.ts';
import { sheetParts } from './sheetParts.ts';

/** The calibration that the text of a file of touches gives, as a page, and the profile with it. */
export async function calibrateFromText(params: CalibrateParams, session: Session): Promise<CalibrateResult> {
  const found = await profileToCalibrate(params.uri, session);
  if ('message' in found) return { kind: 'refused', problems: [found.message] };
  const { profile } = found;
  const basis = calibrationBasis(profile);
  const { millimetres, show } = basis;
  const tipGiven = basis.tipDiameter === null && params.tipDiameter !== null;
  const tipDiameter = tipGiven ? (params.tipDiameter ?? 0) * millimetres : basis.tipDiameter;
  if (tipDiameter === null) return { kind: 'tip-wanted' };
  const report = calibrationOf(fileName(params.uri), params.text, {
    ...basis,
    tipDiameter,
    reference: {
      kind: params.kind,
      size: params.size * millimetres,
      expandedUncertainty: (params.expandedUncertainty ?? 0) * millimetres,
    },
    referenceUncertaintyStated: params.expandedUncertainty !== null,
    orders: [3],
    without: [],
    asking: inTheEditor,
  });
  if ('faults' in report) return { kind: 'refused', problems: report.faults };
  const { effectiveDiameter, uncertainty } = report.result;
  const sure = uncertainty === null ? '' : ` ±${show.error(uncertainty.expandedUncertainty)}`;
  return {
    kind: 'calibrated',
    page: { title: `Calibration from ${fileName(params.uri)}`, markdown: pageOf(report, profile) },
    summary: `Effective diameter ${fineLength(effectiveDiameter, show.units)}${sure}`,
    profile: await withCalibration(report, found, params, tipGiven ? tipDiameter : null, session),
  };
}

interface FoundProfile {
  readonly profile: Profile;
  /** null: there is no file. */
  readonly uri: string | null;
  readonly text: string;
}

/** A profile whose calibration alone is impossible is one that a calibration mends. */
async function profileToCalibrate(
  uri: string,
  { profiles, documents, files }: Session,
): Promise<FoundProfile | { readonly message: string }> {
  const found = await profiles.of(uri);
  if (found.uri === null) return { profile: found.profile, uri: null, text: '' };
  const text = documents.find(found.uri)?.text.toString() ?? (await files.read(found.uri)) ?? '';
  const [problem] = found.problems;
  if (!problem) return { profile: found.profile, uri: found.uri, text };
  const mended = profileWithoutCalibration(text, { path: pathOf(found.uri), ruleIds });
  return mended
    ? { profile: mended, uri: found.uri, text }
    : { message: `The probe profile can’t be used: ${problem.message}` };
}

function pageOf(report: CalibrationReport, profile: Profile): string {
  const picture = calibrationPicture(report, probeOf(profile));
  const parts: Part[] = [
    paragraph(`# Calibration from ${report.path}`),
    ...(picture === null
      ? []
      : [
          {
            kind: 'picture',
            svg: picture,
            alt: 'Effective radius by direction, and what each touch saw',
          } as const,
        ]),
    ...sheetParts(calibrationSheet(report)),
  ];
  return toMarkdown(parts, { pictures: true });
}

async function withCalibration(
  report: CalibrationReport,
  { uri, text, profile }: FoundProfile,
  params: CalibrateParams,
  tipDiameter: number | null,
  session: Session,
): Promise<ProfileWithIt> {
  const unfit = unfitForProfile(report);
  if (unfit !== null) return { kind: 'impossible', message: unfit };
  const folder = path.posix.dirname(pathOf(uri ?? params.uri));
  const touches = path.posix.relative(folder, pathOf(params.uri));
  const entry = calibrationEntry(report, { date: params.day, temperature: null, touches });
  const options = { tipDiameter, history: null, units: report.show.units, path: uri && pathOf(uri), ruleIds };
  const written = writeCalibration(text, entry, options);
  if ('problems' in written) {
    const [problem] = written.problems;
    return {
      kind: 'impossible',
      message: `The profile would be impossible: ${problem?.message ?? 'unknown'}`,
    };
  }
  const history = await namedHistory({ uri, profile }, session);
  if (history === null) return { kind: 'text', uri, text: written.text, history: null };
  if ('problem' in history)
    return {
      kind: 'impossible',
      message: `${history.name}, which the profile names as its history, ${history.problem}`,
    };
  return { kind: 'text', uri, text: written.text, history: historyWith(report, history, params) };
}

function historyWith(
  report: CalibrationReport,
  { uri, text, entries }: Exclude<NamedHistory, { problem: string }>,
  params: CalibrateParams,
): { readonly uri: string; readonly text: string } | null {
  const touches = path.posix.relative(path.posix.dirname(pathOf(uri)), pathOf(params.uri));
  const after = appendToHistory(text, entries, historyEntry(report, { date: params.day, touches }));
  return after === text ? null : { uri, text: after };
}
