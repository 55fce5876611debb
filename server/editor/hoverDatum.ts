import { datumError } from '../analysis/error.ts';
import type { Datum, DiameterUse, Touch } from '../analysis/model.ts';
import { directionName } from '../report/direction.ts';
import { type Quantities, quantities } from '../report/quantities.ts';
import { resultQuantities } from '../report/resultQuantities.ts';
import { fileName } from '../workspace/documentKind.ts';
import type { Program } from '../workspace/program.ts';
import { betterParts } from './betterParts.ts';
import { budgetParts } from './budgetParts.ts';
import { goodForParts } from './goodForParts.ts';
import { unitsAt } from './modesInForce.ts';
import { profileWarning } from './profileWarning.ts';
import { type Part, paragraph } from './richText.ts';

type DatumErrorResult = NonNullable<ReturnType<typeof datumError>>;

interface Known {
  readonly datum: Datum;
  readonly error: DatumErrorResult | null;
}

/** What a place has room for: previews of pages follow no link into a file. */
export interface DatumView {
  readonly links: boolean;
  /** What would make it better. */
  readonly better: boolean;
}

/** How far off a datum can be: the verdict, the touches that it is made of, and the budget. */
export function datumParts(
  program: Program,
  datums: readonly Datum[],
  { links, better }: DatumView = { links: true, better: true },
): Part[] {
  const known: Known[] = datums.map((datum) => ({
    datum,
    error: datumError(datum, program.profile.profile),
  }));
  const [worst] = [...known].sort((a, b) => weight(b.error) - weight(a.error));
  if (!worst) return [];
  const { datum, error } = worst;
  const { profile } = program.profile;
  const state = program.analysis.stateAt(datum.line);
  const lengths = quantities(state ? unitsAt(state.modes, profile.units) : profile.units);
  const show = resultQuantities(datum.unit, lengths);
  if (error === null) {
    const reason = datum.reason ?? 'no touch enters it';
    return [
      paragraph(`**${datum.target}** — its error is not known: ${reason}.`),
      ...profileWarning(program),
    ];
  }
  return [
    ...headline(datum, error, show),
    ...profileWarning(program),
    ...terms(error, links ? program.uri : null),
    ...(error.firstOrder ? [paragraph(firstOrder)] : []),
    ...diameters(error, show),
    ...(better && datum.unit === 'mm' ? betterParts(datum, profile, show) : []),
    ...budgetParts(error, profile, show).filter(({ kind }) => kind !== 'picture' || datum.unit === 'mm'),
    ...others(known, worst, lengths),
  ];
}

const firstOrder =
  'It is no sum of touches: the shares are its slopes where the touches are expected to meet the part.';

/** The others that the block writes, or this one on other paths. */
function others(all: readonly Known[], shown: Known, show: Quantities): Part[] {
  const rows = all
    .filter((each) => each !== shown)
    .map(({ datum, error }) => {
      const own = resultQuantities(datum.unit, show);
      return [
        datum.target,
        error?.expectedError == null ? 'not known' : own.error(error.expectedError),
        error?.bias == null ? 'not known' : own.signedError(error.bias),
        error === null ? 'not known' : `±${own.error(error.expandedUncertainty)}`,
      ];
    });
  if (rows.length === 0) return [];
  return [
    paragraph('Also written here, or on another path:'),
    { kind: 'table', head: ['datum', 'expected error', 'bias', 'U'], rows, right: [1, 2, 3] },
  ];
}

function weight(error: DatumErrorResult | null): number {
  return error?.expectedError ?? error?.expandedUncertainty ?? -1;
}

function headline(datum: Datum, error: DatumErrorResult, show: Quantities): Part[] {
  const spread = `±${show.error(error.expandedUncertainty)}`;
  if (error.bias === null || error.expectedError === null) {
    return [paragraph(`**${datum.target}: ${spread}**, bias not known`)];
  }
  const along = error.unit === 'mm' ? ' along the + axis' : '';
  const verdict = `**${datum.target}: up to ${show.error(error.expectedError)} wrong**`;
  return [
    paragraph(`${verdict} — bias ${show.signedError(error.bias)}${along}, ${spread}`),
    ...goodForParts(error, show),
  ];
}

/** @param uri of the program, for links; null: none */
function terms(error: DatumErrorResult, uri: string | null): Part[] {
  const rows = error.terms.map(({ touch, axis, coefficient, sign, from }) => [
    lineLink(touch, uri),
    `${touch.code} ${directionName(touch.direction)}${calledIn(touch.calls)}`,
    axis.toUpperCase(),
    `${coefficient < 0 ? '−' : '+'}${Number(Math.abs(coefficient).toFixed(4))}`,
    sign === null ? 'not known' : sign > 0 ? '+' : '−',
    from === 'latched' ? 'latched' : '**where it stopped**',
  ]);
  if (rows.length === 0) return [];
  return [{ kind: 'table', head: ['touch', '', 'axis', 'share', 'approach', 'value'], rows, right: [3] }];
}

function lineLink({ file, line }: Touch, uri: string | null): string {
  const name = `${file === null ? '' : `${fileName(file)}, `}line ${line + 1}`;
  return uri === null ? name : `[${name}](${file ?? uri}#L${line + 1})`;
}

function calledIn(calls: readonly number[]): string {
  return calls.length === 0 ? '' : `, called in line ${calls.map((line) => line + 1).join(' → ')}`;
}

function diameters(error: DatumErrorResult, show: Quantities): Part[] {
  const beside = error.restsOnInputs ? [paragraph('Something is added whose value is not in the file.')] : [];
  if (error.diameters.length === 0) {
    return [...(error.diameterCoefficient === 0 ? [paragraph('No tip diameter enters it.')] : []), ...beside];
  }
  const said = error.diameters.map(({ coefficient, value, source }) => {
    const size = value === null ? 'a value that the file does not show' : show.length(value);
    return `${Number(coefficient.toFixed(4))} × ${size} (${diameterNames[source]})`;
  });
  return [paragraph(`Tip diameter in it: ${said.join(', ')}.`), ...beside];
}

const diameterNames: Readonly<Record<DiameterUse['source'], string>> = {
  effective: 'the effective diameter',
  nominal: 'the actual tip diameter',
  outdated: 'an effective diameter that is not the current one',
  'wrong-unit': 'a diameter in the other unit',
  'tool-table': 'from the tool table',
  parameter: 'from the parameter that the profile names',
};
