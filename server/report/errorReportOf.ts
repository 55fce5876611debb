import type { Analysis } from '../analysis/analysis.ts';
import { datumError, touchError } from '../analysis/error.ts';
import type { Datum, Modes, Term, Touch } from '../analysis/model.ts';
import { readerUnit } from '../checks/quantity.ts';
import type { Profile } from '../profile/profile.ts';
import { answers, type Questions } from './errorQuestions.ts';
import type { DatumWithError, ErrorReport } from './errorReport.ts';
import { quantities } from './quantities.ts';
import { resultQuantities } from './resultQuantities.ts';

/**
 * What the touches, datums and results of a program are worth, and what was asked about them. What it reaches in files
 * that it calls stands behind its own, each with the name that `shown` gives its file.
 */
export function errorReportOf(
  path: string,
  analysis: Analysis,
  profile: Profile,
  shown: (uri: string) => string,
  questions: Questions,
): ErrorReport {
  const showAt = (modes: Modes | undefined) => quantities(modes ? readerUnit(modes, profile) : profile.units);
  const named = (touch: Touch) => (touch.file === null ? touch : { ...touch, file: shown(touch.file) });
  const namedIn = (terms: readonly Term[]) => terms.map((term) => ({ ...term, touch: named(term.touch) }));
  const withError = (found: Datum): DatumWithError => {
    const datum = {
      ...found,
      file: found.file && shown(found.file),
      terms: found.terms && namedIn(found.terms),
      slopes: found.slopes && { ...found.slopes, terms: namedIn(found.slopes.terms) },
    };
    const error = datumError(datum, profile);
    const modes =
      datum.file === null
        ? analysis.stateAt(datum.line)?.modes
        : (datum.terms ?? datum.slopes?.terms)?.[0]?.touch.modes;
    const show = resultQuantities(datum.unit, showAt(modes));
    return { datum, error, show, answers: answers(datum, error, profile, questions) };
  };
  const { elsewhere } = analysis;
  return {
    path,
    dialect: analysis.source.dialect.name,
    profile,
    touches: [...analysis.touches, ...elsewhere.touches].map((touch) => ({
      touch: named(touch),
      error: touchError(touch, analysis, profile),
      show: showAt(touch.modes),
    })),
    datums: [...analysis.datums, ...elsewhere.datums].map(withError),
    results: analysis.storedResults.map(withError),
    notKnown: analysis.notKnown,
  };
}
