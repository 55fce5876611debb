import type { Modes, Touch } from '../analysis/model.ts';
import type { Profile } from '../profile/profile.ts';
import type { Source } from '../syntax/source.ts';
import { blocksBefore } from './lineEdits.ts';
import type { CheckContext, Fix, Report, Rule } from './rule.ts';

const groups = ['units', 'distance', 'feedMode'] as const;
type Group = (typeof groups)[number];

const names: Readonly<Record<Group, string>> = {
  units: 'units (G20 or G21)',
  distance: 'distance mode (G90 or G91)',
  feedMode: 'feed mode (G94 or G93)',
};

export const modeAssumed: Rule = {
  id: 'mode-assumed',
  severity: 'warning',
  title: 'the first touch depends on modes that nothing has set',
  what: 'On some path the first touch is reached and nothing in the program has set the units, the distance mode or the feed mode. In a file that holds subroutines alone, which take these from their caller, it is information at their first touch.',
  why: 'What was in force before decides where the probe goes and how fast: in inches instead of millimetres it goes 25 times as far and as fast, absolute instead of incremental it goes somewhere else.',
  instead: 'Set them at the start: G21 or G20, G90 or G91, G94.',
  source: 'common practice, no source; that modes last until another of their group: NISTIR 6556, 3.4',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G91
G38.2 Z-10 F40
G0 Z5
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G94
IF[#101EQ1]GOTO5
G91
N5 G31 Z-10. F40.
G0 Z5.
M30
`,
    },
    {
      dialect: 'rs274ngc',
      program: `o<down> sub
  G38.2 Z-10 F#1
  G0 Z5
o<down> endsub
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G94
o<down> sub
  G38.2 Z-10 F40
  G0 Z5
o<down> endsub
o<down> call
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G94
G91 G31 Z-10. F40.
G0 Z5.
G90
M30
`,
    },
  ],
  *check(context) {
    const { touches } = context.analysis;
    const main = touches.filter(({ openSubroutine }) => !openSubroutine);
    const relying = main.filter(({ modes }) => lacking(modes, 'unset').length > 0);
    const first = earliest(relying);
    if (first) yield report(first, relying, context);
    if (main.length > 0) return;
    for (const touch of firstOfEachSubroutine(touches, context.analysis.source)) {
      const missing = lacking(touch.modes, 'unknown');
      if (missing.length > 0) yield inherited(touch, missing);
    }
  },
};

function lacking(modes: Modes, why: 'unset' | 'unknown'): Group[] {
  return groups.filter((group) => modes[group].includes(why));
}

/** In the order of execution as far as the calls show it. */
function earliest(touches: readonly Touch[]): Touch | undefined {
  const order = (touch: Touch) => touch.calls[0] ?? touch.line;
  return [...touches].sort((a, b) => order(a) - order(b) || a.line - b.line)[0];
}

function report(first: Touch, relying: readonly Touch[], context: CheckContext): Report {
  // The fix sets what any touch lacks: else the next one would be told as soon as the first is mended.
  const missing = groups.filter((group) => relying.some(({ modes }) => modes[group].includes('unset')));
  return {
    message: `Nothing before this touch sets the ${listed(lacking(first.modes, 'unset'))}: it does what the last program left behind.`,
    place: first.place,
    fixes: modeFixes(missing, context.analysis.source, context.profile),
  };
}

function inherited(touch: Touch, missing: readonly Group[]): Report {
  return {
    message: `This touch takes the ${listed(missing)} from the caller; nothing in the subroutine sets or checks it.`,
    place: touch.place,
    severity: 'info',
  };
}

function listed(missing: readonly Group[]): string {
  const words = missing.map((group) => names[group]);
  const last = words.pop() ?? '';
  return words.length > 0 ? `${words.join(', ')} and ${last}` : last;
}

function firstOfEachSubroutine(touches: readonly Touch[], source: Source): Touch[] {
  const firsts = new Map<number, Touch>();
  for (const touch of [...touches].sort((a, b) => a.line - b.line)) {
    const start = subroutineStart(source, touch.line);
    if (!firsts.has(start)) firsts.set(start, touch);
  }
  return [...firsts.values()];
}

/** Line of the subroutine's head, or of the program's. */
function subroutineStart(source: Source, line: number): number {
  for (let at = line; at >= 0; at--) {
    if (source.classOf(at) !== 2) continue;
    const isHead = source
      .block(at)
      .items.some(
        (item) =>
          (item.kind === 'flow' && item.form === 'o-word' && item.keyword === 'sub') ||
          (item.kind === 'word' && item.letter === 'O'),
      );
    if (isHead) return at;
  }
  return -1;
}

/** At the start of the program, in the profile's units: those that everything else here took for granted. */
function modeFixes(missing: readonly Group[], source: Source, profile: Profile): Fix[] {
  const line = firstActiveLine(source);
  if (line === null) return [];
  const codes: Readonly<Record<Group, string>> = {
    units: profile.units === 'inch' ? 'G20' : 'G21',
    distance: 'G90',
    feedMode: 'G94',
  };
  const text = missing.map((group) => codes[group]).join(' ');
  const fix = {
    title: `Set ${text} at the start of the program`,
    edits: [blocksBefore(source, line, [text])],
    changesMotion: true,
  };
  return [fix];
}

/** The first block that does anything: not a comment, a percent line or a program number. */
function firstActiveLine(source: Source): number | null {
  for (let line = 0; line < source.lineCount; line++) {
    const kind = source.classOf(line);
    if (kind === 0) continue;
    const { items } = source.block(line);
    const acts = items.some(
      (item) =>
        item.kind === 'flow' || item.kind === 'setting' || (item.kind === 'word' && item.letter !== 'O'),
    );
    if (acts) return line;
  }
  return null;
}
