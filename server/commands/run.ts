import { Command, CommanderError, Option } from 'commander';
import { stemMaterials } from '../probe/materials.ts';
import { wrapIndented } from '../report/wrap.ts';
import { addCalibrate } from './calibrateOptions.ts';
import type { ExitStatus, Terminal } from './terminal.ts';

/** What a command line needs from outside of the commands. */
export interface Offered {
  readonly version: string;
  /** Starts the language server on standard input and output. */
  serve(): Promise<void>;
  /** The command that is at hand already; the others are loaded when they are asked for. */
  readonly check?: typeof import('./check.ts').check | undefined;
}

/**
 * One command line, without the program's name.
 * Each command is loaded when it is asked for, so that a short one starts fast.
 */
export async function run(
  argv: readonly string[],
  terminal: Terminal,
  offered: Offered,
): Promise<ExitStatus> {
  let status: ExitStatus = 0;
  const program = commandLine(terminal, offered, (result) => {
    status = result;
  });
  try {
    await program.parseAsync([...argv], { from: 'user' });
    return status;
  } catch (error) {
    // Its message is written by then; only help and version end well.
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    throw error;
  }
}

const cautions = [
  'Exit status: 0 nothing at error level, 1 errors found, 2 the command could not do its work.',
  "A wrong move breaks probes and hurts people: prove every program above the part first, single block, reduced rapids, a hand on the stop. The machine builder's manual, local rules and trained people have the last word.",
];

type Settle = (status: ExitStatus) => void;

function commandLine(terminal: Terminal, offered: Offered, settle: Settle): Command {
  const program = new Command('probewright')
    .description('Checks, explains and writes touch-probe programs in RS-274 G-code.')
    .version(offered.version)
    .exitOverride()
    .configureOutput({
      writeOut: (text) => terminal.out(text),
      writeErr: (text) => terminal.error(text),
      outputError: (text, write) => write(text.replace(/^error:/, 'probewright:')),
      getOutHelpWidth: () => terminal.width,
      getErrHelpWidth: () => terminal.width,
      getOutHasColors: () => terminal.colour,
      getErrHasColors: () => terminal.colour,
    })
    .addHelpText(
      'after',
      () => `\n${cautions.map((text) => wrapIndented(text, terminal.width, 0)).join('')}`,
    );
  addCheck(program, terminal, offered, settle);
  addError(program, terminal, settle);
  addGenerate(program, terminal, settle);
  addCalibrate(program, terminal, settle);
  addPredict(program, terminal, settle);
  addRehearse(program, terminal, settle);
  addExplain(program, terminal, settle);
  addServe(program, offered, settle);
  return program;
}

const formatOption = (...formats: readonly string[]) =>
  new Option('--format <format>', 'how the result is written').choices(formats).default('text');

const profileOption = () =>
  new Option('--profile <file>', 'the probe profile (default: the nearest probewright.json upwards)').default(
    null,
    'nearest',
  );

function addCheck(program: Command, terminal: Terminal, offered: Offered, settle: Settle): void {
  program
    .command('check')
    .description('what is wrong in programs; folders are walked, - reads standard input')
    .argument('<path...>', 'programs or folders')
    .addOption(formatOption('text', 'json', 'sarif', 'github', 'junit'))
    .option('--strict', 'exit status 1 for warnings too', false)
    .option('--fix', 'apply the fixes that leave motion as it is', false)
    .addOption(
      new Option('--baseline <file>', 'leave out the findings that this file holds').default(null, 'none'),
    )
    .addOption(
      new Option('--write-baseline <file>', 'write what is found to this file, and report nothing').default(
        null,
        'none',
      ),
    )
    .addOption(profileOption())
    .action(async (paths, options) => {
      const check = offered.check ?? (await import('./check.ts')).check;
      settle(await check(paths, options, terminal, offered.version));
    });
}

function addError(program: Command, terminal: Terminal, settle: Settle): void {
  program
    .command('error')
    .description('the expected measurement error of each touch and each datum of a program')
    .argument('<file>', 'the program; - reads standard input')
    .addOption(
      new Option(
        '--tolerance <length>',
        'can ± this be decided, and what would have to change (0.01, 0.0004in)',
      ).default(null),
    )
    .option('--ratio <number>', 'expected errors that a tolerance should hold', '10')
    .addOption(
      new Option(
        '--trials <count>',
        'draw the error of each datum as well (Monte Carlo): a number, or adaptive',
      ).default(null),
    )
    .option('--seed <number>', 'of what is drawn', '1')
    .addOption(formatOption('text', 'json'))
    .addOption(profileOption())
    .action(async (path, options) => {
      const { error } = await import('./error.ts');
      settle(await error(path, options, terminal));
    });
}

function addGenerate(program: Command, terminal: Terminal, settle: Settle): void {
  program
    .command('generate')
    .description('writes a probing routine')
    .argument('[feature]', 'what to probe; --list names them')
    .option('--set <name=value...>', 'inputs of the routine; --describe names them', [])
    .addOption(
      new Option('--dialect <dialect>', "the control's language")
        .choices(['rs274ngc', 'macro'])
        .default(null),
    )
    .addOption(
      new Option('--form <form>', 'how it stands in a program')
        .choices(['inline', 'subroutine'])
        .default('inline'),
    )
    .addOption(
      new Option('--units <units>', 'of the inputs and of the routine').choices(['mm', 'inch']).default(null),
    )
    .addOption(new Option('-o, --output <file>', 'write to a file instead of standard output').default(null))
    .addOption(
      new Option(
        '--setup-out <file>',
        'write a setup for its rehearsal too, with the part that it expects',
      ).default(null),
    )
    .option('--list', 'the features', false)
    .option('--describe', 'the inputs of a feature', false)
    .addOption(formatOption('text', 'json'))
    .addOption(profileOption())
    .action(async (feature, options) => {
      const { generate } = await import('./generate.ts');
      settle(generate(feature ?? null, options, terminal));
    });
}

function addPredict(program: Command, terminal: Terminal, settle: Settle): void {
  const size = (flags: string, of: string) =>
    new Option(flags, `${of} (default: the profile's)`).default(null, 'profile');
  program
    .command('predict')
    .description('pre-travel, lobing and effective diameter of a probe that nobody has calibrated yet')
    .addOption(size('--tip-diameter <length>', 'actual diameter of the tip'))
    .addOption(size('--length <length>', 'free length of the stylus'))
    .addOption(size('--stem-diameter <length>', 'diameter of its stem'))
    .addOption(size('--material <name>', 'of the stem').choices(Object.keys(stemMaterials)))
    .addOption(formatOption('text', 'json'))
    .addOption(profileOption())
    .action(async (options) => {
      const { predict } = await import('./predict.ts');
      settle(predict(options, terminal));
    });
}

function addRehearse(program: Command, terminal: Terminal, settle: Settle): void {
  program
    .command('rehearse')
    .description(
      'runs a program on a virtual machine, part and probe: undisturbed, and with everything that can go wrong',
    )
    .argument('<file>', 'the program; - reads standard input')
    .addOption(new Option('--setup <file>', 'what stands in the machine, JSON with comments').default(null))
    .option('--propose', 'write a setup from what the program touches, and rehearse nothing', false)
    .addOption(
      new Option('-o, --output <file>', 'where --propose writes it').default(null, 'standard output'),
    )
    .option('--fault <name...>', 'these faults only; two at once with a + between them', [])
    .addOption(new Option('--runs <count>', 'as many runs with chance as well (Monte Carlo)').default(null))
    .addOption(
      new Option('--seed <number>', 'of what is drawn (default: that of the setup)').default(null, 'setup'),
    )
    .addOption(formatOption('text', 'json'))
    .addOption(profileOption())
    .action(async (path, options) => {
      const { rehearse } = await import('./rehearse.ts');
      settle(await rehearse(path, options, terminal));
    });
}

function addExplain(program: Command, terminal: Terminal, settle: Settle): void {
  program
    .command('explain')
    .description("a rule's page: what it finds, why it matters, what to write instead")
    .argument('[rule]', 'its id; without one, all rules are listed')
    .action(async (rule) => {
      const { explain } = await import('./explain.ts');
      settle(explain(rule ?? null, terminal));
    });
}

/** Clients add options of their own, such as their process id; none may stop the server. */
function addServe(program: Command, { serve }: Offered, settle: Settle): void {
  program
    .command('serve')
    .description('the language server, for any editor')
    .requiredOption('--stdio', 'speak on standard input and output')
    .allowUnknownOption()
    .allowExcessArguments()
    .action(async () => {
      await serve();
      settle(0);
    });
}
