import type { Node } from 'jsonc-parser';
import * as z from 'zod/mini';
import { overlaps } from '../part/overlaps.ts';
import type { Setup } from '../part/setup.ts';
import { type SetupFile, type SolidFile, setupDefinition } from '../part/setupDefinition.ts';
import type { Point, Solid } from '../part/solid.ts';
import type { ProfileProblem } from '../profile/profile.ts';
import { placeOf, problemsOf } from '../profile/profileProblems.ts';
import { parseProfileText, type TextProblem } from '../profile/profileText.ts';
import { lineStarts, positionOf } from '../profile/textPosition.ts';
import { isRotaryKey } from './expectations.ts';

export type SetupReading =
  | { readonly setup: Setup; readonly problems: readonly [] }
  | { readonly setup: null; readonly problems: readonly ProfileProblem[] };

/** Reads a setup's text (JSON with comments) to mm; every problem names its key and place. */
export function readSetup(text: string): SetupReading {
  const parsed = parseProfileText(text, 'setup');
  if (parsed.root === null) return failed(text, parsed.problems);
  const checked = z.safeParse(setupDefinition, parsed.value);
  if (!checked.success) return failed(text, problemsOf(checked.error.issues, parsed.root, setupDefinition));
  const problems = contradictions(checked.data, parsed.root);
  if (problems.length > 0) return failed(text, problems);
  const setup = resolve(checked.data);
  const crowds = overlaps(setup.solids);
  return crowds > mostOverlaps ? failed(text, [tooCrowded(crowds, parsed.root)]) : { setup, problems: [] };
}

/** A part of more takes many seconds to be made ready. */
const mostOverlaps = 25_000;

function tooCrowded(crowds: number, root: Node): TextProblem {
  const message = `part: its solids lie over each other ${crowds} times, counted in every layer between two heights; at most ${mostOverlaps}. Leave out what the probe does not come near.`;
  return { key: 'part', message, ...placeOf(root, ['part']) };
}

function failed(text: string, problems: readonly TextProblem[]): SetupReading {
  const starts = lineStarts(text);
  return {
    setup: null,
    problems: problems.map(({ key, message, offset, length }) => {
      const [from, to] = [positionOf(offset, starts), positionOf(offset + length, starts)];
      return { key, message, line: from.line, start: from.column, endLine: to.line, end: to.column };
    }),
  };
}

/** Values that are possible one by one and impossible together. */
function contradictions({ part = [], tool, tools }: SetupFile, root: Node): TextProblem[] {
  const problems = part.flatMap((solid, index) =>
    solidFaults(solid).map(([name, message]): TextProblem => {
      const path = ['part', index, ...(name === null ? [] : [name])];
      const key = `part[${index}]${name === null ? '' : `.${name}`}`;
      return { key, message: `${key}${message}`, ...placeOf(root, path) };
    }),
  );
  if (tool !== undefined && tools !== undefined && tools[String(tool)] === undefined)
    problems.push({
      key: 'tool',
      message: `tool is ${tool}, which is not in tools: its length is not known.`,
      ...placeOf(root, ['tool']),
    });
  return problems;
}

/** What is wrong with one solid: key (null: the solid as a whole) and words. */
function solidFaults(solid: SolidFile): [keyof SolidFile | null, string][] {
  if (solid.add !== undefined && solid.cut !== undefined)
    return [['cut', ': a solid is an "add" or a "cut", not both.']];
  const shape = solid.add ?? solid.cut;
  if (shape === undefined) return [[null, ' has neither "add" nor "cut".']];
  const straight = shape === 'block' || shape === 'pocket';
  const own = straight ? (['min', 'max'] as const) : (['center', 'diameter', 'top', 'depth'] as const);
  const foreign = straight
    ? (['center', 'diameter', 'top', 'depth'] as const)
    : (['min', 'max', 'rotation'] as const);
  const missing = own.filter((name) => solid[name] === undefined);
  const strange = foreign.filter((name) => solid[name] !== undefined);
  const faults: [keyof SolidFile | null, string][] = [
    ...missing.map((name): [null, string] => [null, ` is a ${shape} and lacks "${name}".`]),
    ...strange.map((name): [keyof SolidFile, string] => [name, `: a ${shape} has none.`]),
  ];
  if (faults.length > 0) return faults;
  const { min, max } = solid;
  const axis = min && max ? [0, 1, 2].find((i) => (min[i] ?? 0) >= (max[i] ?? 0)) : undefined;
  return axis === undefined ? [] : [['max', `: its ${'XYZ'[axis]} must be greater than that of min.`]];
}

function resolve(file: SetupFile): Setup {
  const mm = file.units === 'inch' ? 25.4 : 1;
  const point = ([x, y, z]: readonly [number, number, number]): Point => [x * mm, y * mm, z * mm];
  const { uncertainty = {} } = file;
  return {
    units: file.units ?? 'mm',
    start: point(file.start),
    spindle: file.spindle ?? 0,
    tool: file.tool ?? null,
    tools: new Map(
      Object.entries(file.tools ?? {}).map(([number, { length, diameter }]) => [
        Number(number),
        { length: length * mm, diameter: diameter === undefined ? null : diameter * mm },
      ]),
    ),
    workOffsets: new Map(Object.entries(file.workOffsets ?? {}).map(([name, at]) => [name, point(at)])),
    solids: (file.part ?? []).map((solid) => solidOf(solid, mm)),
    uncertainty: {
      x: (uncertainty.x ?? 0) * mm,
      y: (uncertainty.y ?? 0) * mm,
      z: (uncertainty.z ?? 0) * mm,
      degrees: uncertainty.degrees ?? 0,
    },
    expect: new Map(
      Object.entries(file.expect ?? {}).map(([key, { value, tolerance }]) => {
        const scale = isRotaryKey(key) ? 1 : mm;
        return [key, { value: value * scale, tolerance: tolerance * scale }];
      }),
    ),
    parameters: new Map(Object.entries(file.parameters ?? {})),
    wrongToolLength: (file.wrongToolLength ?? 0) * mm,
    seed: file.seed ?? 1,
  };
}

function solidOf(solid: SolidFile, mm: number): Solid {
  const role = solid.add === undefined ? 'cut' : 'add';
  const { min, max, center, diameter = 0, top = 0, depth = 0 } = solid;
  if (!min || !max) {
    const [x, y] = center ?? [0, 0];
    const outline = { kind: 'circle', x: x * mm, y: y * mm, radius: (diameter * mm) / 2 } as const;
    return { role, outline, bottom: (top - depth) * mm, top: top * mm };
  }
  return {
    role,
    outline: {
      kind: 'rectangle',
      x: ((min[0] + max[0]) / 2) * mm,
      y: ((min[1] + max[1]) / 2) * mm,
      halfX: ((max[0] - min[0]) / 2) * mm,
      halfY: ((max[1] - min[1]) / 2) * mm,
      angle: ((solid.rotation ?? 0) * Math.PI) / 180,
    },
    bottom: min[2] * mm,
    top: max[2] * mm,
  };
}
