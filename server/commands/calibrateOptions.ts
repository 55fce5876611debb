import { type Command, Option } from 'commander';
import type { ReferenceKind } from '../probe/calibration/touches.ts';
import type { Units } from '../report/quantities.ts';
import type { ExitStatus, Terminal } from './terminal.ts';

/** As the person wrote them; null: left out. */
export interface CalibrateOptions {
  readonly referenceDiameter: string | null;
  readonly referenceKind: ReferenceKind | 'sphere';
  readonly referenceUncertainty: string | null;
  readonly tipDiameter: string | null;
  readonly harmonics: string | null;
  readonly units: Units | null;
  readonly without: string | null;
  readonly write: boolean;
  readonly date: string | null;
  readonly temperature: string | null;
  readonly verify: boolean;
  readonly history: string | null;
  readonly picture: string | null;
  readonly design: string | null;
  readonly spindle: string | null;
  readonly method: boolean;
  readonly format: 'text' | 'json' | 'csv';
  readonly profile: string | null;
}

/** What is left out is null, and the help does not speak of it. */
const leftOut = {
  referenceDiameter: null,
  referenceUncertainty: null,
  tipDiameter: null,
  harmonics: null,
  units: null,
  without: null,
  date: null,
  temperature: null,
  history: null,
  picture: null,
  design: null,
  spindle: null,
  profile: null,
};

/** Lets a command line understand `calibrate`. */
export function addCalibrate(
  program: Command,
  terminal: Terminal,
  settle: (status: ExitStatus) => void,
): void {
  program
    .command('calibrate')
    .description('effective diameter, lobing and uncertainty of a probe from touches of a reference')
    .argument(
      '[touches]',
      'CSV with direction, x, y and, as you like, feed and spindle; - reads standard input',
    )
    .option(
      '--reference-diameter <length>',
      'diameter of the ring, plug or sphere, width of the gap or block',
    )
    .addOption(
      new Option(
        '--reference-kind <kind>',
        'what was touched: from inside ring or gap, from outside plug, block or sphere',
      )
        .choices(['ring', 'plug', 'gap', 'block', 'sphere'])
        .default('ring'),
    )
    .option('--reference-uncertainty <length>', 'of the reference, k = 2, its form included')
    .option('--tip-diameter <length>', "actual diameter of the tip, by micrometer (default: the profile's)")
    .option('--harmonics <orders>', 'orders of lobes to look for, such as 3,6 (default: 3)')
    .addOption(
      new Option('--units <units>', "of the options and of the file (default: the profile's)").choices([
        'mm',
        'inch',
      ]),
    )
    .option('--without <lines>', 'leave touches out, by line: 7,12')
    .option('--write', 'put the result into the profile (and into the history, where one is named)', false)
    .option('--date <day>', 'day of the touches, as 2025-03-31 (default: today)')
    .option('--temperature <celsius>', 'temperature at the touches, for the profile')
    .option(
      '--verify',
      "compare the touches with the profile's calibration instead; with --format csv alone, the table to fill in",
      false,
    )
    .option(
      '--history <file>',
      "earlier calibrations and their trend; alone, shows them (with --write: the profile's probe.history)",
    )
    .option(
      '--picture <file>',
      'draw the radius by direction and what each touch saw (ring and plug), or a history, SVG',
    )
    .option('--design <touches>', 'where to touch, given how many touches you will spend')
    .option('--spindle <angles>', 'spindle angles that a design may use, such as 0,180')
    .option('--method', 'the equations and where they come from', false)
    .addOption(
      new Option(
        '--format <format>',
        'how the result is written; csv with --design, or with --verify before touching',
      )
        .choices(['text', 'json', 'csv'])
        .default('text'),
    )
    .option('--profile <file>', 'the probe profile (default: the nearest probewright.json upwards)')
    .action(async (touches, options) => {
      const { calibrate } = await import('./calibrate.ts');
      settle(await calibrate(touches ?? null, { ...leftOut, ...options } as CalibrateOptions, terminal));
    });
}
