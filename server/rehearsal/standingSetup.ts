import type { CalledFiles } from '../analysis/calledFiles.ts';
import type { Setup } from '../part/setup.ts';
import type { Point } from '../part/solid.ts';
import type { Profile } from '../profile/profile.ts';
import type { Source } from '../syntax/source.ts';

/** Where the work offsets are put, by unit, so that they read well. */
const origins: Readonly<Record<'mm' | 'inch', Point>> = {
  mm: [300, 200, -300],
  inch: [12 * 25.4, 8 * 25.4, -12 * 25.4],
};
const lengths = { mm: 120, inch: 5 * 25.4 } as const;
/** Where the profile states none, mm. */
const usualUncertainty = 1;
const usualTool = 1;

/**
 * How a machine may stand before a program, with no part in it: the tools and work offsets that the program names, and
 * the tip `height` mm over the origin of the work offsets. The rest is a guess.
 */
export function standingSetup(
  source: Source,
  called: CalledFiles,
  profile: Profile,
  { units, height }: { readonly units: 'mm' | 'inch'; readonly height: number },
): Setup {
  const named = namedIn([source, ...called.files.map((file) => file.source)]);
  const tool = profile.probe.tool ?? [...named.tools].at(-1) ?? usualTool;
  const origin = origins[units];
  const length = lengths[units];
  const tools = [...new Set([tool, ...named.tools])].sort((a, b) => a - b);
  const systems = named.offsets.size > 0 ? [...named.offsets].sort() : ['G54'];
  const off = profile.placementUncertainty ?? usualUncertainty;
  return {
    units,
    start: [origin[0], origin[1], origin[2] + length + height],
    spindle: profile.probe.calibration?.spindle ?? 0,
    tool,
    tools: new Map(
      tools.map((number) => [
        number,
        { length, diameter: number === tool ? profile.probe.tipDiameter : null },
      ]),
    ),
    workOffsets: new Map(systems.map((system) => [system, origin])),
    solids: [],
    uncertainty: { x: off, y: off, z: off, degrees: 1 },
    expect: new Map(),
    parameters: new Map(),
    wrongToolLength: 5 * off,
    seed: 1,
  };
}

/** Tools and work offsets that stand in programs by their number. */
function namedIn(sources: readonly Source[]) {
  const tools = new Set<number>();
  const offsets = new Set<string>();
  for (const source of sources)
    for (const line of source.otherLines())
      for (const item of source.block(line).items) {
        if (item.kind !== 'word' || item.value.kind !== 'number') continue;
        const { value } = item.value;
        if ('TDH'.includes(item.letter) && Number.isInteger(value) && value > 0) tools.add(value);
        const system = `G${value}`;
        if (item.letter === 'G' && /^G5(4|5|6|7|8|9(\.[123])?)$/.test(system)) offsets.add(system);
      }
  return { tools, offsets };
}
