import { describe, expect, test } from 'vitest';
import { analyse } from '../../server/analysis/analysis.ts';
import { check } from '../../server/checks/check.ts';
import { builtInProfile } from '../../server/profile/profile.ts';
import { arcGeometry } from '../../server/program/arc.ts';
import { choices } from '../../server/program/choices.ts';
import { codeName } from '../../server/program/codes.ts';
import { missingWords } from '../../server/program/missingWords.ts';
import { parameterMeaning } from '../../server/program/parameterMeaning.ts';
import { missingProgramEnd } from '../../server/program/programEnd.ts';
import type { Leg } from '../../server/program/world.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';
import { NumericWorld, numericStart } from '../program/numericWorld.ts';
import { runLines } from '../program/runLines.ts';
import { named, type ReferenceCase, referenceCase } from './referenceCase.ts';

type Case = ReferenceCase<Record<string, unknown>, Record<string, unknown>>;

const one = (id: string): Case => referenceCase(id);
const sourceOf = (text: string) => Source.from(SourceText.from(text), dialects.rs274ngc);

describe('motion', () => {
  const arc = one('RS-ARC-1');
  test(named(arc), () => {
    const [x, y] = arc.inputs.start as [number, number];
    const { world } = runLines(String(arc.inputs.line), 'rs274ngc', numericStart({ X: x, Y: y }));
    expect(world.faults).toEqual([]);
    expect(world.legs).toEqual([[expect.objectContaining({ kind: 'arc', plane: [0, 1], ...arc.expected })]]);
    const [leg] = world.legs[0] ?? [];
    expect(leg && 'to' in leg && leg.to.slice(0, 3)).toEqual([10, 16, 9]);
    // G2 is clockwise, seen from +Z.
    expect(leg?.kind === 'arc' && leg.sweep < 0).toBe(true);
  });

  const tolerance = one('RS-ARC-TOL');
  test(named(tolerance), () => {
    expect(choices.rs274ngc.arcTolerance).toEqual(tolerance.expected);
    for (const [unit, greatest] of Object.entries(tolerance.expected as Record<string, number>)) {
      const mismatch = (difference: number) => {
        const head = unit === 'mm' ? 'g21' : 'g20';
        const { world } = runLines(`${head} g17 g90 g2 x${10 + difference} y0 i5 j0`);
        return world.faults;
      };
      expect(mismatch(greatest * 0.9)).toEqual([]);
      expect(mismatch(greatest * 1.1)).toEqual(['arc-radius-mismatch']);
    }
  });

  const inverse = one('RS-G93');
  test(named(inverse), () => {
    const { world } = runLines(`g21 g93 g1 x10 f${inverse.inputs.F}`);
    const [leg] = world.legs[0] ?? [];
    const feed = leg?.kind === 'feed' ? (leg.feed ?? 0) : 0;
    expect(10 / feed).toBeCloseTo(inverse.expected.minutes as number, 12);
  });

  const length = one('RS-TLO');
  test(named(length), () => {
    const { z_before, tlo, line_after } = length.inputs as Record<string, number>;
    // The transcript is in inches; the tool table of the world is in millimetres.
    const world = new NumericWorld('inch', () => null, { 'tool:2:z': Number(tlo) * 25.4 });
    const ran = runLines(
      `g20 g43 h2\n${line_after}`,
      'rs274ngc',
      numericStart({ Z: Number(z_before) }),
      world,
    );
    expect(ran.at(0, 2)).toEqual([length.expected.x, length.expected.z]);
  });

  const repeated = one('RS-G91G81');
  test(named(repeated), () => {
    const [x, y, z] = repeated.inputs.start as [number, number, number];
    const { world } = runLines(String(repeated.inputs.line), 'rs274ngc', numericStart({ X: x, Y: y, Z: z }));
    const moves = (world.legs[0] ?? []).map((leg) => move(leg));
    const expected = repeated.expected.moves as (string | number)[][];
    expect(moves.map(([kind]) => kind)).toEqual(expected.map(([kind]) => kind));
    for (const [i, [, ...to]] of moves.entries())
      for (const [axis, value] of to.entries()) expect(value).toBeCloseTo(Number(expected[i]?.[axis + 1]), 9);
  });
});

function move(leg: Leg): [string, ...number[]] {
  if (!('to' in leg)) return [leg.kind];
  return [leg.kind === 'rapid' ? 'traverse' : leg.kind, ...leg.to.slice(0, 3)];
}

describe('language', () => {
  const close = one('RS-INT-TOL');
  test(named(close), () => {
    const { accept, reject } = close.expected as { accept: number[]; reject: number[] };
    const isFaulty = (index: string) =>
      parseBlock(`x#[${index}]`, dialects.rs274ngc).faults.length +
      runLines(`x#[${index}]`).world.faults.length;
    for (const value of accept) {
      expect(codeName('M', value)).toBe('M1');
      expect(codeName('G', value / 10)).toBe('G0.1');
      expect([isFaulty(`${value}`), isFaulty(`0+${value}`)]).toEqual([0, 0]);
    }
    for (const value of reject) {
      expect([codeName('M', value), codeName('G', value / 10)]).toEqual([null, null]);
      expect([isFaulty(`${value}`), isFaulty(`0+${value}`)]).toEqual([1, 1]);
    }
  });

  const percent = one('RS-PCT');
  test(named(percent), () => {
    const files = percent.inputs.files as string[];
    const ok = files.map((file) => missingProgramEnd(sourceOf(file.replaceAll('\\n', '\n'))) === null);
    expect(ok).toEqual(percent.expected.ok);
  });

  const file = one('RS-PFILE');
  test(named(file), () => {
    const numbers = file.expected.numbers as number[];
    for (const number of numbers) {
      expect([number, parameterMeaning(`#${number}`, 'rs274ngc')?.title]).toEqual([
        number,
        expect.stringMatching(/G28|G30|G92|offset/),
      ]);
      const value = number === 5220 ? file.expected.default_5220 : file.expected.default;
      expect([number, runLines('').read(`#${number}`)]).toEqual([number, value]);
    }
  });
});

describe('G38.2', () => {
  const errors = one('RS-PROBE-ERR');
  const head = 'G21 G17 G90 G94 G40 M5\nG1 X0 Y0 Z0 F100\n';
  const rules = (text: string) => {
    const source = sourceOf(text);
    return check(source, analyse(source, builtInProfile), builtInProfile).findings.map(({ rule }) => rule);
  };
  /** A program for each error of the list, and the rule that tells it. */
  const told: readonly (readonly [error: string, program: string, rule: string])[] = [
    ['start closer than', `${head}G38.2 X0.2\nG0 X-1\nM2`, 'probe-travel-too-short'],
    ['inverse time feed mode', `${head}G93 G38.2 X5 F2\nG0 X-1\nM2`, 'probe-in-inverse-time'],
    ['rotary axis commanded', `${head}G1 A0\nG38.2 X5 A5\nG0 X-1\nM2`, 'probe-moves-rotary'],
    ['cutter radius compensation', `${head}G41 D1\nG38.2 X5\nG0 X-1\nM2`, 'probe-with-cutter-compensation'],
    ['feed rate zero', `${head}G38.2 X5 F0\nG0 X-1\nM2`, 'probe-feed-unset'],
    ['spindle turning', `${head}M3 S100\nG38.2 X5\nG0 X-1\nM2`, 'probe-with-spindle-running'],
  ];
  test(named(errors), () => {
    const list = errors.expected.errors as string[];
    for (const [error, program, rule] of told) {
      expect(list.some((each) => each.startsWith(error))).toBe(true);
      expect(rules(program)).toContain(rule);
    }
    const noAxis = parseBlock('G38.2 F100', dialects.rs274ngc);
    const before = { dialect: 'rs274ngc', motion: null, plane: 'G17', feedMode: 'G94' } as const;
    expect(missingWords(noAxis, before).map(({ code }) => code)).toEqual(['G38.2']);
    // The last of the list, no trip by the end of the travel, is the machine's to tell: the request says that it alarms.
    const { world } = runLines('g21 g38.2 z-5 f50\ng38.3 z-9');
    expect(world.touches.map(({ alarms }) => alarms)).toEqual([true, false]);
    expect(told.length + 2).toBe(list.length);
  });
});

test('an arc in the radius format turns at most half a turn for R > 0, at least that for R < 0 (NISTIR 6556, 3.5.3.1)', () => {
  const words = { from: [0, 0], to: [10, 0], clockwise: true, centre: null, turns: 1 } as const;
  const swept = (radius: number) => {
    const arc = arcGeometry({ ...words, radius }, 0.002);
    return typeof arc === 'string' ? arc : Math.round((arc.sweep * 180) / Math.PI);
  };
  expect([swept(10), swept(-10), swept(5), swept(4), swept(0)]).toEqual([
    -60,
    -300,
    -180,
    'arc-radius-too-small',
    'arc-zero-radius',
  ]);
});
