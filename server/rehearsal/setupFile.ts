import type { Setup } from '../part/setup.ts';
import type { SetupFile, SolidFile } from '../part/setupDefinition.ts';
import type { Solid } from '../part/solid.ts';
import { isRotaryKey } from './expectations.ts';
import { readSetup, type SetupReading } from './readSetup.ts';

/** The setup as its file would have it, in its units, rounded to a micrometre or a hundred-thousandth of an inch. */
export function setupFileOf(setup: Setup): SetupFile {
  const given = inUnits(setup.units);
  const point = (at: readonly number[]): [number, number, number] => [
    given(at[0] ?? 0),
    given(at[1] ?? 0),
    given(at[2] ?? 0),
  ];
  const { uncertainty } = setup;
  return {
    units: setup.units,
    start: point(setup.start),
    spindle: setup.spindle,
    ...(setup.tool === null ? {} : { tool: setup.tool }),
    tools: Object.fromEntries(
      [...setup.tools].map(([number, { length, diameter }]) => [
        String(number),
        { length: given(length), ...(diameter === null ? {} : { diameter: given(diameter) }) },
      ]),
    ),
    workOffsets: Object.fromEntries([...setup.workOffsets].map(([name, at]) => [name, point(at)])),
    part: setup.solids.map((solid) => solidFile(solid, given)),
    uncertainty: {
      x: given(uncertainty.x),
      y: given(uncertainty.y),
      z: given(uncertainty.z),
      degrees: uncertainty.degrees,
    },
    expect: Object.fromEntries(
      [...setup.expect].map(([key, { value, tolerance }]) => {
        const as = isRotaryKey(key) ? (degrees: number) => degrees : given;
        return [key, { value: as(value), tolerance: as(tolerance) }];
      }),
    ),
    ...(setup.parameters.size === 0 ? {} : { parameters: Object.fromEntries(setup.parameters) }),
    wrongToolLength: given(setup.wrongToolLength),
    seed: setup.seed,
  };
}

/** The setup after its file was written and read again, or why nobody can read it: it lies too far out, say. */
export function readBack(setup: Setup): SetupReading {
  return readSetup(JSON.stringify(setupFileOf(setup)));
}

/** The same where the setup is none of a program that somebody else wrote. */
export function asWritten(setup: Setup): Setup {
  const { setup: read, problems } = readBack(setup);
  if (read === null) throw new Error(`a setup was written that can not be read: ${problems[0]?.message}`);
  return read;
}

function inUnits(units: 'mm' | 'inch'): (mm: number) => number {
  const [unit, parts] = units === 'inch' ? [25.4, 1e5] : [1, 1e3];
  return (mm) => Math.round((mm / unit) * parts) / parts;
}

function solidFile({ role, outline, bottom, top }: Solid, given: (mm: number) => number): SolidFile {
  if (outline.kind === 'circle') {
    const shape = role === 'add' ? ({ add: 'cylinder' } as const) : ({ cut: 'bore' } as const);
    return {
      ...shape,
      center: [given(outline.x), given(outline.y)],
      diameter: given(2 * outline.radius),
      top: given(top),
      depth: given(top - bottom),
    };
  }
  const shape = role === 'add' ? ({ add: 'block' } as const) : ({ cut: 'pocket' } as const);
  const { x, y, halfX, halfY, angle } = outline;
  const degrees = Math.round(((angle * 180) / Math.PI) * 1e6) / 1e6;
  return {
    ...shape,
    min: [given(x - halfX), given(y - halfY), given(bottom)],
    max: [given(x + halfX), given(y + halfY), given(top)],
    ...(degrees === 0 ? {} : { rotation: degrees }),
  };
}
