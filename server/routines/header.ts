import type { DialectName } from '../syntax/dialect.ts';
import type { Step } from './motion.ts';
import type { Plan } from './routine.ts';
import { inUnits, sayFeed } from './units.ts';
import { type Writing, writes } from './writing.ts';

/** The header's sentences, the same in both dialects. */
export function headerOf(writing: Writing, dialect: DialectName): readonly string[] {
  const { routine, plan, tip } = writing;
  const { pace, units } = plan;
  return [
    `${routine.title}, written by Probewright. ${routine.summary}`,
    'Caution: prove it above the part first, in single block, with reduced rapids and a hand on the stop.',
    'The manual of the machine builder, local rules and trained people have the last word.',
    `Before it starts: ${probeInSpindle(plan)} ${routine.start(plan).join(' ')} Rotation, mirror image and scaling are off.`,
    ...routine.cautions,
    `It makes no rapid move. Wherever the way is not known to be free it travels ready to stop at a touch${writes(writing, dialect) ? ', and it writes the work offset only after every touch succeeded' : '. It writes no work offset'}.`,
    `Feeds: travel ${sayFeed(pace.guarded, units)}, search ${sayFeed(pace.search, units)}, measuring ${sayFeed(pace.measuring, units)}.`,
    tip.says,
    needs(writing, dialect),
    `Inputs: ${inputsInWords(writing)}, units ${units}, dialect ${dialect}, form ${writing.form}.`,
  ];
}

/** Dialects differ from machine to machine: what to look up before the first run. */
function needs({ steps, plan }: Writing, dialect: DialectName): string {
  const kinds = new Set(steps.map(({ kind }) => kind));
  const { spindleOrientation } = plan.profile.machine;
  const rows = codesOf[dialect].filter(({ kind }) => kinds.has(kind));
  const codes = rows.flatMap(({ kind, codes }) =>
    kind === 'orient' ? [spindleOrientation ? 'M19 with R' : codes] : [codes],
  );
  const known = inWords([...alwaysNeeded[dialect], ...codes.filter(Boolean)]);
  if (dialect === 'macro')
    return `It needs a control that stops G31 at a touch and keeps work coordinates in #5061 to #5063, and that knows ${known}.`;
  return `It needs a control that knows ${known}; the program must not use M70 and M72 around it.`;
}

const alwaysNeeded: Readonly<Record<DialectName, readonly string[]>> = {
  rs274ngc: ['M70 and M72 to keep modes', 'G38.3 with #5070', '#<_x>'],
  macro: ['#4001 to #4014', '#5041 to #5043', '#3000'],
};

/** What a step takes beside these. */
const codesOf: Readonly<
  Record<DialectName, readonly { readonly kind: Step['kind']; readonly codes: string }[]>
> = {
  rs274ngc: [
    { kind: 'write', codes: 'G10 L20' },
    { kind: 'turn-offset', codes: 'G10 L2 with R, which turns a work offset' },
    { kind: 'tool-length', codes: 'G10 L1 with #5403' },
    { kind: 'orient', codes: '' },
    { kind: 'log', codes: 'LOGOPEN, LOG and LOGCLOSE in comments' },
  ],
  macro: [
    { kind: 'write', codes: 'G10 L2' },
    { kind: 'tool-length', codes: 'G10 L10 with #5083' },
    { kind: 'orient', codes: '#3006' },
    { kind: 'log', codes: 'POPEN, DPRNT and PCLOS' },
  ],
};

function inWords(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

function probeInSpindle({ profile }: Plan): string {
  const tool = profile.probe.tool;
  return `the probe${tool === null ? '' : `, tool ${tool},`} hangs in the spindle as it was calibrated, with its tool length in force.`;
}

function inputsInWords({ routine, values, plan }: Writing): string {
  return routine.inputs
    .map((input) => {
      const value = values.get(input.name);
      const scaled = input.type === 'length' || input.type === 'feed';
      return `${input.name} ${typeof value === 'number' && scaled ? inUnits(value, plan.units) : value}`;
    })
    .join(', ');
}
