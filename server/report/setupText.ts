import type { Proposal } from '../rehearsal/proposeSetup.ts';
import { setupFileOf } from '../rehearsal/setupFile.ts';

/** The file of a proposed setup: JSON with comments that say what each entry rests on and what is left to do. */
export function setupText(proposal: Proposal, program: string): string {
  const { setup, rehearsal, part } = proposal;
  const file = setupFileOf(setup);
  const { outcome, story } = rehearsal.undisturbed;
  const lines = [
    `// Proposed for ${oneLine(program)} ${origins[part]}. Nothing here was measured: make it true before you rely on it.`,
    '// Undisturbed, the program ends in this setup so:',
    `// ${outcome.name}: ${oneLine(story)}`,
    '{',
    entry('units', file.units),
    '  // Machine position of the spindle’s gauge line when the program starts.',
    entry('start', file.start),
    '  // Angle of the spindle, degrees.',
    entry('spindle', file.spindle),
    ...(file.tool === undefined ? [] : [entry('tool', file.tool)]),
    '  // The control’s tool table: from the gauge line to the tip. The lengths are guesses.',
    table('tools', file.tools ?? {}),
    '  // Before the run, in machine coordinates. Guesses too.',
    table('workOffsets', file.workOffsets ?? {}),
    `  // ${parts[part]}`,
    list('part', file.part ?? []),
    '  // How far the part may stand off its place: the profile’s placementUncertainty, where it states one.',
    entry('uncertainty', file.uncertainty),
    ...expectLines(file.expect ?? {}),
    '  // How far the tool’s true length may be off its entry in the table.',
    entry('wrongToolLength', file.wrongToolLength),
    '  // Where the random numbers of --runs begin.',
    `  "seed": ${file.seed}`,
    '}',
  ];
  return `${lines.join('\n')}\n`;
}

const origins: Readonly<Record<Proposal['part'], string>> = {
  shape: 'from what it touches',
  targets: 'from what it touches',
  nominal: 'from the values that it was written with',
};

const parts: Readonly<Record<Proposal['part'], string>> = {
  shape: 'The likeliest shape for the touches, in machine coordinates, built up in this order.',
  targets:
    'A target for each place that is touched, in machine coordinates: they make no one shape. Put the part here.',
  nominal: 'The feature as the routine expects it, in machine coordinates, built up in this order.',
};

function expectLines(expect: object): string[] {
  if (Object.keys(expect).length === 0)
    return [
      '  // What the program should leave behind, such as "G54.x": { "value": 0, "tolerance": 0.01 }: not known.',
      '  "expect": {},',
    ];
  return ['  // What the program should leave behind, as the part stands here.', table('expect', expect)];
}

function entry(name: string, value: unknown): string {
  return `  "${name}": ${inLine(value)},`;
}

function table(name: string, values: object): string {
  const entries = Object.entries(values).map(([key, value]) => `    "${key}": ${inLine(value)}`);
  return `  "${name}": {\n${entries.join(',\n')}\n  },`;
}

function list(name: string, values: readonly unknown[]): string {
  return `  "${name}": [\n${values.map((value) => `    ${inLine(value)}`).join(',\n')}\n  ],`;
}

/** JSON in one line, with blanks as a person sets them. */
function inLine(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(inLine).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const entries = Object.entries(value).map(([key, each]) => `"${key}": ${inLine(each)}`);
  return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`;
}

/** Names of files and messages of programs may hold anything. */
function oneLine(text: string): string {
  return text.replace(/[\s\u2028\u2029]+/g, ' ');
}
