import { isRotaryKey } from '../rehearsal/expectations.ts';
import type { MonteCarlo } from '../rehearsal/monteCarlo.ts';
import { type OutcomeName, worst } from '../rehearsal/outcome.ts';
import type { ProgramPlace } from '../rehearsal/programPlace.ts';
import type { Rehearsal, RehearsedRun } from '../rehearsal/rehearse.ts';
import { counted } from './counted.ts';
import { lineName } from './lineName.ts';
import { faultMatrix, faultTitle, proofFirst, untried } from './rehearsalWords.ts';
import { printable, type Style } from './style.ts';
import { wrapIndented } from './wrap.ts';

export interface RehearsalPage {
  readonly path: string;
  readonly setup: string;
  readonly style: Style;
  readonly width: number;
  /** Those of the setup. */
  readonly units: 'mm' | 'inch';
  /** Name of a called file, for its URI. */
  readonly file: (uri: string) => string;
}

/** For people: the undisturbed run, the matrix fault by outcome, how each run that was not right came about, the verdict. */
export function rehearsalText(rehearsal: Rehearsal, chance: MonteCarlo | null, page: RehearsalPage): string {
  const { style } = page;
  return [
    `${style.bold(printable(page.path))} in ${printable(page.setup)}\n`,
    undisturbedText(rehearsal.undisturbed, page),
    ...(rehearsal.faults.length === 0 ? [] : [matrix(rehearsal, style)]),
    ...stories(rehearsal, page),
    ...(chance === null ? [] : [spreadText(chance, page)]),
    verdictText(rehearsal, page),
  ].join('\n');
}

function undisturbedText(run: RehearsedRun, page: RehearsalPage): string {
  const { record, outcome, story } = run;
  const { style, width } = page;
  const touches = counted(record.touches.length, 'touch', 'touches');
  const head = `${style.bold('Undisturbed')}: ${coloured(outcome.name, style)}, ${place(run, page)}; ${touches}, ${record.seconds.toFixed(0)} s on the machine\n`;
  const errors = [...outcome.errors].map(([key, error]) => {
    const { in: shown, unit } = unitOf(key, page);
    return `  ${key}  ${shown(error)} ${unit} off\n`;
  });
  return `${head}${wrapIndented(printable(story), width, 2)}${errors.join('')}`;
}

/** A row a fault, a column an outcome, worst first; what is counted are its forms and touches. */
function matrix(rehearsal: Rehearsal, style: Style): string {
  const { outcomes, rows } = faultMatrix(rehearsal);
  const first = Math.max(5, ...rows.map(({ fault }) => fault.length));
  const lines = rows.map(({ fault, counts }) => {
    const cells = outcomes.map((outcome, column) => {
      const count = counts[column] ?? 0;
      const text = (count === 0 ? '·' : String(count)).padStart(outcome.length);
      return count === 0 ? style.dim(text) : paint(outcome, text, style);
    });
    return `  ${fault.padEnd(first)}  ${cells.join('  ')}\n`;
  });
  return `${style.bold('Faults')}\n  ${''.padEnd(first)}  ${outcomes.join('  ')}\n${lines.join('')}`;
}

/** One story for each run that did not come out right. */
function stories({ faults }: Rehearsal, page: RehearsalPage): string[] {
  const { style, width } = page;
  const told = faults.filter(({ outcome }) => outcome.name !== 'datum-right');
  if (told.length === 0) return [];
  const lines = told.map((run) => {
    const { fault, outcome, story } = run;
    const head = `  ${faultTitle(fault)}: ${coloured(outcome.name, style)}, ${place(run, page)}\n`;
    return `${head}${wrapIndented(printable(story), width, 6)}`;
  });
  return [`${style.bold('How they came about')}\n${lines.join('')}`];
}

function spreadText({ runs, seed, outcomes, spreads }: MonteCarlo, page: RehearsalPage): string {
  const { style } = page;
  const counts = [...outcomes].map(([name, count]) => `${count} ${name}`).join(', ');
  const lines = spreads.map(({ key, mean, standardDeviation, least, greatest }) => {
    const { in: shown, unit } = unitOf(key, page);
    const spread =
      standardDeviation === null ? '' : `, standard deviation ${shown(standardDeviation).slice(1)}`;
    return `  ${key}  mean ${shown(mean)}${spread}, ${shown(least)} to ${shown(greatest)} ${unit}\n`;
  });
  const apart = [...outcomes.keys()].some((name) => worst.includes(name))
    ? '  The verdict is that of the runs without chance: these are no part of it.\n'
    : '';
  return `${style.bold('With chance')}: ${runs} runs, seed ${seed}: ${counts}\n${lines.join('')}${apart}`;
}

function verdictText(rehearsal: Rehearsal, { style, width }: RehearsalPage): string {
  const { verdict, cautions } = rehearsal;
  const word = verdict === 'pass' ? style.green('pass') : style.red('fail');
  const reason = untried(rehearsal);
  const notes = cautions.map((text) =>
    wrapIndented(`Not looked at or taken for granted: ${printable(text)}.`, width, 2),
  );
  return `${style.bold('Verdict')}: ${word}${reason === '' ? '' : `: ${reason}`}\n${notes.join('')}${wrapIndented(proofFirst, width, 0).replace(/.+/g, style.dim)}`;
}

function place({ line, file }: ProgramPlace, page: RehearsalPage): string {
  return lineName({ line: line - 1, file: file === null ? null : page.file(file) });
}

function coloured(name: OutcomeName, style: Style): string {
  return paint(name, name, style);
}

function paint(name: OutcomeName, text: string, style: Style): string {
  if (worst.includes(name)) return style.red(text);
  return name === 'datum-right' ? style.green(text) : style.yellow(text);
}

/** How an error of a datum is shown, given in mm or, of a rotary axis, in degrees. */
function unitOf(key: string, { units }: RehearsalPage): { in: (error: number) => string; unit: string } {
  if (isRotaryKey(key)) return { in: (error) => signed(error, 5), unit: 'degrees' };
  if (units === 'inch') return { in: (error) => signed(error / 25.4, 6), unit: 'inch' };
  return { in: (error) => signed(error, 5), unit: 'mm' };
}

function signed(value: number, digits: number): string {
  return `${value < 0 ? '-' : '+'}${Math.abs(value).toFixed(digits)}`;
}
