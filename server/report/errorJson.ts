import type { Touch } from '../analysis/model.ts';
import type { Component, ErrorBudget } from '../probe/derivedError.ts';
import { answersJson } from './decisionJson.ts';
import type { DatumWithError, ErrorReport, TouchWithError } from './errorReport.ts';

/**
 * The stable contract for other programs, mm; of a datum with `unit`, degrees. `results` are values left in
 * parameters, shaped like datums. What is not known is null; `notKnown` is there where the analysis stopped following, and `reason` in a
 * datum that is no sum of touches for it. `firstOrder`: its terms are its slopes where the touches are expected.
 */
export function errorJson({ path, touches, datums, results, notKnown }: ErrorReport): string {
  const file = {
    path,
    touches: touches.map(touchJson),
    datums: datums.map(datumJson),
    results: results.map(datumJson),
    ...(notKnown.length === 0
      ? {}
      : { notKnown: notKnown.map(({ place, reason }) => ({ line: place.line + 1, reason })) }),
  };
  return `${JSON.stringify({ files: [file] }, null, 2)}\n`;
}

function touchJson({ touch, error }: TouchWithError): object {
  return {
    ...fileOf(touch),
    line: touch.line + 1,
    code: touch.code,
    axis: touch.axis,
    direction: touch.direction,
    feed: touch.feed.value,
    ...spindleOf(touch),
    effectiveRadius: error?.effectiveRadius ?? null,
    bias: error?.bias ?? null,
    ...budgetJson(error),
    stoppingDistance: error?.stoppingDistance ?? null,
    overtravelLimit: error?.overtravelLimit ?? null,
    calibrated: error?.calibrated ?? null,
  };
}

/** Of a touch before which the program turned the spindle: degrees, null where not known. */
function spindleOf({ spindle }: Touch): object {
  if (spindle.kind === 'as-found') return {};
  return { spindleAngle: spindle.kind === 'oriented' ? spindle.degrees : null };
}

function datumJson({ datum, error, answers }: DatumWithError): object {
  return {
    ...fileOf(datum),
    line: datum.line + 1,
    target: datum.target,
    ...(datum.unit === 'mm' ? {} : { unit: datum.unit }),
    ...(error?.firstOrder ? { firstOrder: true } : {}),
    terms:
      error?.terms.map(({ touch, axis, coefficient, sign }) => ({
        ...(touch.file === null ? {} : { touchFile: touch.file }),
        touchLine: touch.line + 1,
        axis,
        coefficient,
        sign,
      })) ?? null,
    diameterCoefficient: error?.diameterCoefficient ?? null,
    bias: error?.bias ?? null,
    ...budgetJson(error),
    ...(datum.reason === null ? {} : { reason: datum.reason }),
    ...answersJson(answers),
  };
}

/** Of what stands in a called file; the lines are that file's. */
function fileOf({ file }: { readonly file: string | null }): object {
  return file === null ? {} : { file };
}

function budgetJson(budget: ErrorBudget | null): object {
  return {
    components: budget?.components.map(componentJson) ?? [],
    notIncluded: budget?.notIncluded ?? [],
    standardUncertainty: budget?.standardUncertainty ?? null,
    degreesOfFreedom: budget?.degreesOfFreedom ?? null,
    coverageFactor: budget?.coverageFactor ?? null,
    expandedUncertainty: budget?.expandedUncertainty ?? null,
    expectedError: budget?.expectedError ?? null,
  };
}

function componentJson({ name, distribution, standardUncertainty, degreesOfFreedom }: Component): object {
  return { name, distribution, standardUncertainty, degreesOfFreedom };
}
