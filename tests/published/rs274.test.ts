import { describe, expect, test } from 'vitest';
import { analyse } from '../../server/analysis/analysis.ts';
import { check } from '../../server/checks/check.ts';
import { builtInProfile } from '../../server/profile/profile.ts';
import { codeOf, conflicting } from '../../server/program/codes.ts';
import { evaluate } from '../../server/program/evaluate.ts';
import { execute } from '../../server/program/execute.ts';
import { onlyCode } from '../../server/program/modes.ts';
import { readBlock } from '../../server/program/readBlock.ts';
import { type State, setParameter } from '../../server/program/state.ts';
import type { Value } from '../../server/program/value.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';
import { NumericWorld, numericStart } from '../program/numericWorld.ts';
import { named, type ReferenceCase, referenceCase, referenceCases } from './referenceCase.ts';

type Case = ReferenceCase<Record<string, unknown>, Record<string, unknown>>;

const rs = dialects.rs274ngc;
const all = referenceCases.filter((c): c is Case => c.topic === '1-rs274');
const one = (id: string): Case => referenceCase(id);
const title = (c: Case) => named(c);

function start(params: Readonly<Record<string, number>> = {}): State {
  const state = numericStart();
  for (const [name, value] of Object.entries(params))
    setParameter(state, Number(name) <= 30 ? 'locals' : 'globals', name, value);
  return state;
}

/** Runs a line and gives its word values, the parameters it left and the faults of its text. */
function runLine(line: string, state: State) {
  const world = new NumericWorld();
  const block = parseBlock(line, rs);
  const read = readBlock(block, { state, world, dialect: 'rs274ngc', line: 0 });
  const words: Record<string, Value> = {};
  for (const [letter, { value }] of read.words) words[letter.toLowerCase()] = value;
  const g = read.codes.filter(({ word }) => word.letter === 'G').map(({ code }) => Number(code.slice(1)));
  execute(block, 0, state, world, 'rs274ngc');
  const params = Object.fromEntries([...state.locals, ...state.globals]);
  return { words, g, params, faults: block.faults, world };
}

function worth(c: Case): Value {
  const world = new NumericWorld();
  const line = `x${String(c.inputs.expr)}`;
  const [word] = parseBlock(line, rs).items;
  if (word?.kind !== 'word') throw new Error(line);
  const state = start((c.inputs.params as Record<string, number>) ?? {});
  return evaluate(word.value, { state, world, dialect: 'rs274ngc', line: 0 });
}

const absolute = (c: Case) => (c.tolerance as { abs?: number }).abs ?? 0;

describe('expressions', () => {
  const sample = all.filter((c) => /^RS-C2-n/.test(c.id));
  test('the sample expression test is all there', () => expect(sample.length).toBeGreaterThan(25));
  test.each(sample.map((c) => [title(c), c] as const))('%s', (_, c) => {
    const { words, faults } = runLine(String(c.inputs.line), start());
    expect(faults).toEqual([]);
    expect(Math.abs((words.x as number) - (c.expected.x as number))).toBeLessThanOrEqual(absolute(c));
    const rounded = (c.tolerance as { abs_vs_published: number }).abs_vs_published;
    expect(Math.abs((words.x as number) - (c.expected.x_published as number))).toBeLessThanOrEqual(rounded);
  });

  const composed = all.filter((c) => 'expr' in c.inputs && 'value' in c.expected);
  test('the composed expressions are all there', () => expect(composed.length).toBeGreaterThan(12));
  test.each(composed.map((c) => [title(c), c] as const))('%s', (_, c) => {
    const value = worth(c) as number;
    expect(Math.abs(value - (c.expected.value as number))).toBeLessThanOrEqual(absolute(c) || 0);
  });
});

describe('settings', () => {
  const sequence = one('RS-C2-seq');
  test(title(sequence), () => {
    const state = start();
    const expected = sequence.expected.per_line as { words: object; params_after: Record<string, number> }[];
    (sequence.inputs.lines as string[]).forEach((line, i) => {
      const { words, params } = runLine(line, state);
      expect(words).toEqual(expected[i]?.words);
      expect(params).toMatchObject(expected[i]?.params_after ?? {});
    });
  });

  for (const id of ['RS-PAR-1', 'RS-PAR-2']) {
    test(title(one(id)), () => {
      const c = one(id);
      const { words, g, params } = runLine(String(c.inputs.line), start((c.inputs.params as never) ?? {}));
      expect(params).toMatchObject(c.expected.params_after as object);
      const expected = c.expected.words as { g?: number; x?: number } | undefined;
      if (expected?.x !== undefined) expect(words.x).toBe(expected.x);
      if (expected?.g !== undefined) expect(g).toEqual([expected.g]);
    });
  }

  const order = one('RS-PAR-4');
  test(title(order), () => {
    const orders = permutations(order.inputs.items as string[]);
    expect(orders).toHaveLength(order.expected.permutations as number);
    for (const items of orders) {
      const { g, params, faults } = runLine(items.join(' '), start());
      expect(faults).toEqual([]);
      expect(g.sort()).toEqual([1, 40]);
      expect(params).toMatchObject(order.expected.params_after as object);
    }
  });

  const index = one('RS-PAR-IDX');
  test(`${title(index)}; the trade's numbers above 5399 are taken`, () => {
    const isFaulty = (i: number) => {
      const { faults, world } = runLine(`x#[${i}]`, start());
      return faults.length + world.faults.length > 0;
    };
    for (const i of index.inputs.ok as number[]) expect([i, isFaulty(i)]).toEqual([i, false]);
    const errors = (index.inputs.error as number[]).filter((i) => i !== 5400);
    for (const i of errors) expect([i, isFaulty(i)]).toEqual([i, true]);
  });
});

describe('blocks', () => {
  const faulty = (line: string) => parseBlock(line, rs).faults.length > 0;
  for (const id of ['RS-N-1', 'RS-CMT-1']) {
    test(title(one(id)), () => {
      for (const line of one(id).inputs.ok as string[]) expect([line, faulty(line)]).toEqual([line, false]);
      for (const line of one(id).inputs.error as string[]) expect([line, faulty(line)]).toEqual([line, true]);
    });
  }

  test(`${title(one('RS-NUM-1'))}; 1e3 is X1 E3 to the trade`, () => {
    const { ok, error } = one('RS-NUM-1').inputs as { ok: string[]; error: string[] };
    expect(ok.map((n) => runLine(`x${n}`, start()).words.x)).toEqual(one('RS-NUM-1').expected.ok_values);
    for (const n of error.filter((e) => e !== '1e3')) expect([n, faulty(`x${n}`)]).toEqual([n, true]);
  });

  test(title(one('RS-WS-1')), () => {
    const c = one('RS-WS-1');
    const { words, g } = runLine(String(c.inputs.line), start());
    expect({ ...words, g: g[0] }).toEqual(c.expected.words);
  });

  test(title(one('RS-LEN')), () => {
    const most = one('RS-LEN').expected.max_chars as number;
    const line = (length: number) => `x1(${'-'.repeat(length - 4)})`;
    expect([faulty(line(most)), faulty(line(most + 1))]).toEqual([false, true]);
  });

  test(`${title(one('RS-LETTERS'))}; U V W and E are taken as the trade writes them`, () => {
    for (const letter of one('RS-LETTERS').expected.letters as string[])
      expect(faulty(`${letter}1`)).toBe(false);
  });

  test(title(one('RS-ML-1')), () => {
    const { ok, error } = one('RS-ML-1').inputs as { ok: string[]; error: string[] };
    const told = (line: string) =>
      findings(`${line}\n`).filter((id) => /modal-conflict|repeated-word/.test(id));
    for (const line of ok) expect([line, told(line)]).toEqual([line, []]);
    const fourWords = (line: string) => line === 'm3 m6 m8 m48 m0';
    for (const line of error.filter((l) => !fourWords(l)))
      expect([line, told(line).length]).toEqual([line, 1]);
  });

  test(title(one('RS-GROUPS')), () => {
    const groups = one('RS-GROUPS').expected as Record<'G' | 'M', Record<string, string[]>>;
    for (const letter of ['G', 'M'] as const)
      for (const codes of Object.values(groups[letter])) {
        const known = codes.map((c) => codeOf(letter, Number(c.slice(1)), 'rs274ngc'));
        for (const [i, a] of known.entries()) {
          expect(a?.code).toBe(codes[i]);
          // M7 and M8 may be in force together (Table 4's own exception).
          for (const b of known.slice(i + 1))
            if (!/^M[789]/.test(a?.code ?? '')) expect(a && b && conflicting(a, b, 'rs274ngc')).toBe(true);
        }
      }
  });

  test(title(one('RS-BD')), () => {
    const block = parseBlock(String(one('RS-BD').inputs.line), rs);
    expect(block.blockDelete).toMatchObject({ start: 0, end: 1 });
    expect(parseBlock('n1 /g0 x1', rs).faults).not.toEqual([]);
  });
});

describe('state', () => {
  test(title(one('RS-G10')), () => {
    const c = one('RS-G10');
    const state = start();
    for (const [name, value] of Object.entries(c.inputs.before as Record<string, number>))
      setParameter(state, 'globals', name, value);
    runLine(String(c.inputs.line), state);
    expect(Object.fromEntries(state.globals)).toMatchObject(c.expected.after as object);
  });

  test(title(one('RS-G92-1')), () => {
    const c = one('RS-G92-1');
    const state = numericStart({ X: c.inputs.current_x as number });
    const { world } = runLine(String(c.inputs.line), state);
    expect(state.position[0]).toBe(c.expected.x_after);
    expect(world.offsets[0]?.origin).toBe(
      (c.expected['5211'] as number) - (c.inputs.offset_before as number),
    );
  });

  test(title(one('RS-WCS-G')), () => {
    for (const [k, code] of Object.entries(one('RS-WCS-G').expected.map as Record<string, string>)) {
      const state = start();
      runLine(code, state);
      expect(runLine('x#5220', state).words.x).toBe(Number(k));
    }
  });

  test(title(one('RS-M2')), () => {
    const expected = one('RS-M2').expected as Record<string, string>;
    const state = start();
    runLine('g20 g18 g91 g93 g41 g56 m3 m8 g0', state);
    runLine('m2', state);
    const now = (group: Parameters<typeof onlyCode>[0]) => onlyCode(group, state.modes[group]);
    expect({
      origin_offsets: now('workOffset'),
      plane: now('plane'),
      distance: now('distance'),
      feed_mode: now('feedMode'),
      cutter_comp: now('cutterCompensation'),
      spindle: now('spindle'),
      motion: now('motion'),
      coolant: now('coolant'),
    }).toEqual({
      origin_offsets: expected.origin_offsets,
      plane: expected.plane,
      distance: expected.distance,
      feed_mode: expected.feed_mode,
      cutter_comp: expected.cutter_comp,
      spindle: expected.spindle,
      motion: expected.motion,
      coolant: expected.coolant,
    });
  });

  test(title(one('RS-ORDER')), () => {
    // Units act before the axis words, the end after the motion: the steps of Table 8 that a state shows.
    const state = numericStart({ X: 25.4 });
    const { world } = runLine('m2 x2 g1 g91 g20 f10', state);
    expect(world.motions[0]?.to[0]).toBe(3);
    expect(onlyCode('distance', state.modes.distance)).toBe('G90');
  });

  test(title(one('RS-PROBE-RES')), () => {
    const numbers = one('RS-PROBE-RES').expected.params as number[];
    const state = numericStart({ X: 1, Y: 2, Z: 3, A: 4, B: 5, C: 6 });
    const world = new NumericWorld('mm', (request) =>
      request.to.map((v, i) => (i === 2 ? -1.5 : (v as number))),
    );
    execute(parseBlock('g90 g21 g38.2 z-10 f50', rs), 0, state, world, 'rs274ngc');
    const read = (n: number) => {
      const [word] = parseBlock(`x#${n}`, rs).items;
      return word?.kind === 'word'
        ? evaluate(word.value, { state, world, dialect: 'rs274ngc', line: 1 })
        : null;
    };
    expect(numbers.map(read)).toEqual([1, 2, -1.5, 4, 5, 6]);
  });
});

describe('G38.2', () => {
  const legality = all.filter((c) => c.quantity === 'G38.2 legality');
  test('the cases are all there', () => expect(legality.length).toBeGreaterThanOrEqual(5));
  test.each(legality.map((c) => [title(c), c] as const))('%s', (_, c) => {
    const {
      units,
      line,
      feed,
      start: at,
    } = c.inputs as { units: string; line: string; feed: number; start: number[] };
    const from = `X${at[0]} Y${at[1]} Z${at[2]}${at[3] === undefined ? '' : ` A${at[3]}`}`;
    const head = `${units === 'mm' ? 'G21' : 'G20'} G17 G90 G94 G40 M5\nG1 ${from} F${feed}\n`;
    const tail = `G91\nG0 ${line.includes('Z') ? 'Z1' : line.includes('X-') ? 'X1' : 'X-1'}\nG90\nM2\n`;
    const errors = findings(`${head}${line}\n${tail}`, 'error');
    if (c.expected.result === 'ok') expect(errors).toEqual([]);
    else expect(errors).not.toEqual([]);
  });
});

function findings(text: string, severity?: string): string[] {
  const source = Source.from(SourceText.from(text), rs);
  const { findings: found } = check(source, analyse(source, builtInProfile), builtInProfile);
  return found.filter((f) => severity === undefined || f.severity === severity).map((f) => f.rule);
}

function permutations<T>(items: readonly T[]): T[][] {
  if (items.length <= 1) return [[...items]];
  return items.flatMap((item, i) =>
    permutations(items.filter((_, k) => k !== i)).map((rest) => [item, ...rest]),
  );
}
