import type { Touch } from '../analysis/model.ts';
import { literal } from '../syntax/literal.ts';
import { codesIn, hasCode, lineName, wordsOf } from './blockFacts.ts';
import { lengthText, readerUnit } from './quantity.ts';
import type { CheckContext, Report, Rule } from './rule.ts';

export const unguardedApproach: Rule = {
  id: 'unguarded-approach',
  severity: 'info',
  title: 'the probe is taken down beside the part, and nothing guards the move',
  what: 'A touch in X or Y is made at a level to which a plain G0 or G1 went down: from a height that is known, or by a step that is. It is told once for each level, at the move that goes down there first. Quiet where the probe comes down by a touch or a guarded move, to a place above what a touch along Z has met, from a height that the file does not show, and where another tool, a call or a test stands between the move and the touch.',
  why: 'The depth comes from assumed sizes. Where the part, a clamp or a chip stands in the way, the stylus meets it at the speed of positioning, and no signal stops the machine.',
  instead:
    'Come down by a guarded move, `G38.3 Z-6 F500` or a skip move, and stop where it was stopped; or lower the probe by hand before the program.',
  source: 'common practice, no source',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X-15 Y20
G0 Z20
G0 Z-6
G38.2 X5 F40
G0 X-15
G0 Z20
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G91 G94
G0 X-15.
G0 Z-8.
G31 X20. F40.
IF[#1005EQ0]GOTO9
#500=#5061-15.
G0 X-5.
G90
M30
N9 G90
#3000=1(NO CONTACT)
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
G0 X-15 Y20
G0 Z20
G38.3 Z-6 F500
o1 if [#5070 EQ 1]
  G0 Z20
  (ABORT, something stands beside the part)
o1 endif
G38.2 X5 F40
G0 X-15
G0 Z20
M2
`,
    },
  ],
  *check(context) {
    const levels = new Set<string>();
    for (const touch of context.analysis.touches) {
      const level = levelOf(touch);
      if (level === null || levels.has(level)) continue;
      levels.add(level);
      const report = reportOf(touch, context);
      if (report) yield report;
    }
  },
};

/** Of a measuring touch towards a side; null where its level is not known, or lies above what a touch along Z met. */
function levelOf({ alarms, isUsed, away, axis, direction, height }: Touch): string | null {
  const isSideways = axis === 'x' || axis === 'y' || (direction !== null && Math.abs(direction[2]) < 1e-9);
  const isMeasuring = alarms || isUsed;
  if (away || !isSideways || !isMeasuring) return null;
  if (height.z !== null) return `z${height.z.toFixed(6)}`;
  const counted = height.aboveTouched ?? height.aboveStart;
  if (counted === null || counted >= -1e-9) return null;
  return `${height.aboveTouched === null ? 's' : 't'}${counted.toFixed(6)}`;
}

function reportOf(touch: Touch, context: CheckContext): Report | null {
  const line = lastMoveInZ(touch, context);
  if (line === null) return null;
  const mm = descentAt(line, context);
  if (mm === null) return null;
  const { source } = context.analysis;
  const z = wordsOf(source.block(line)).find(({ letter }) => letter === 'Z');
  if (!z) return null;
  const unit = readerUnit(touch.modes, context.profile);
  const below = touch.height.aboveTouched;
  const depth = below === null ? '' : `, ${lengthText(-below, unit)} below the surface that was touched`;
  return {
    message: `This plain move takes the probe ${lengthText(mm, unit)} down to where ${lineName(touch.line)} touches sideways${depth}: what stands there higher than assumed is met at the speed of positioning, and nothing stops the machine.`,
    place: { line, start: z.start, end: z.end },
    related: [{ message: 'the touch at this level', place: touch.place }],
  };
}

/** The nearest block before the touch that moves Z, in the same run of blocks; null where none shows or it is no plain move. */
function lastMoveInZ({ line: touching }: Touch, { analysis }: CheckContext): number | null {
  const { source, graphs } = analysis;
  const ranges = graphs
    .flatMap(({ nodes }) => nodes)
    .find((node) => node.ranges.some(([from, to]) => touching >= from && touching < to))?.ranges;
  const [first] = ranges?.find(([from, to]) => touching >= from && touching < to) ?? [touching];
  for (let line = touching - 1; line >= Math.max(first, touching - mostLines); line--) {
    if (source.classOf(line) === 0) continue;
    const block = source.block(line);
    if (block.blockDelete || hasCode(block, crossing)) return null;
    if (!wordsOf(block).some(({ letter }) => letter === 'Z')) continue;
    return codesIn(block).some(({ letter, code }) => letter === 'G' && code !== null && !plain.includes(code))
      ? null
      : line;
  }
  return null;
}

/** Lines that are looked at before a touch. */
const mostLines = 40;
/** Another tool, other coordinates or a place that the file does not show. */
const crossing = [
  'M6',
  'G28',
  'G30',
  'G53',
  'G43',
  'G43.1',
  'G49',
  'G92',
  'G10',
  'G52',
  'G54',
  'G55',
  'G56',
  'G57',
  'G58',
  'G59',
];
const plain = ['G0', 'G1', 'G90', 'G91', 'G94', 'G20', 'G21', 'G17', 'G40'];

/** mm; null where the block does not go down, or not known from where. */
function descentAt(line: number, { analysis }: CheckContext): number | null {
  const known = analysis.descents.find(({ place }) => place.line === line);
  if (known) return known.mm;
  const { source } = analysis;
  if (source.classOf(line) !== 1) return null;
  const word = wordsOf(source.block(line)).find(({ letter }) => letter === 'Z');
  const z = word ? literal(word.value) : null;
  const state = analysis.stateAt(line);
  if (z === null || state === null || state.modes.motion.some((code) => code !== 'G0' && code !== 'G1'))
    return null;
  const [unit] = state.modes.units;
  const perUnit = state.modes.units.length === 1 && unit === 'G20' ? 25.4 : 1;
  const isStep = state.modes.distance.join() === 'G91';
  const from = state.position.z;
  const down = isStep ? -z : state.modes.distance.includes('G91') || from === null ? 0 : from - z;
  return down > 1e-6 ? down * perUnit : null;
}
