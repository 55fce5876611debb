import { describe, expect, it } from 'vitest';
import { macroArguments } from '../../server/program/macroArguments.ts';
import { onlyCode } from '../../server/program/modes.ts';
import { isNumber } from '../../server/program/value.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import { NumericWorld, numericStart } from './numericWorld.ts';
import { runLines } from './runLines.ts';

class Switched extends NumericWorld {
  constructor(readonly deletedBlocks: 'run' | 'skip' | 'either') {
    super();
  }
}

describe('the order within a block (NISTIR 6556, table 8)', () => {
  it('reads all values before anything takes effect', () => {
    expect(runLines('#1=1\n#1=5 g0 x#1').at(0)).toEqual([1]);
  });

  it('changes tools before the spindle turns, and the length before the motion', () => {
    const world = new NumericWorld('mm', () => null, { 'tool:3:z': 10 });
    const ran = runLines('g0 z5 g43 m6 t3 m3 s100', 'rs274ngc', numericStart({ Z: 50 }), world);
    expect(onlyCode('spindle', ran.state.modes.spindle)).toBe('M3');
    expect(ran.world.motions[0]?.from[2]).toBe(40);
  });

  it('dwells before it moves and stops behind the motion', () => {
    expect(runLines('m1 g4 p2').world.events).toEqual([
      { kind: 'dwell', seconds: 2 },
      { kind: 'stop', code: 'M1' },
    ]);
    expect(runLines('G4 X1.5', 'macro').world.events).toEqual([{ kind: 'dwell', seconds: 1.5 }]);
    expect(runLines('G4 P1500', 'macro').world.events).toEqual([{ kind: 'dwell', seconds: 1.5 }]);
  });

  it('ends behind everything else', () => {
    const ran = runLines('m2 g1 x3 f10');
    expect([ran.at(0), ran.endings]).toEqual([[3], ['program-end']]);
  });
});

describe('messages and alarms', () => {
  it('are told with their text', () => {
    expect(runLines('(MSG, put the ring in)').world.events).toEqual([
      { kind: 'message', text: 'put the ring in', number: null },
    ]);
    const abort = runLines('(ABORT, no contact)');
    expect([abort.world.events[0]?.kind, abort.endings]).toEqual(['alarm', ['alarm']]);
    const alarm = runLines('#3000=12(NO CONTACT)', 'macro');
    expect(alarm.world.events).toEqual([{ kind: 'alarm', text: 'NO CONTACT', number: 12 }]);
    expect(alarm.endings).toEqual(['alarm']);
    expect(runLines('#3006=1(TURN THE PART)', 'macro').world.events[0]).toMatchObject({ kind: 'message' });
  });
});

describe('block delete (NISTIR 6556, 2.2.2)', () => {
  const ends = (text: string, deleted: 'run' | 'skip' | 'either') =>
    runLines(text, 'macro', numericStart(), new Switched(deleted)).state.position[0] ?? Number.NaN;

  it('runs or skips by the switch, and what stands before the slash always', () => {
    expect([ends('/G0 X5.', 'run'), ends('/G0 X5.', 'skip')]).toEqual([5, 0]);
    expect([ends('G0 X5. /X7.', 'run'), ends('G0 X5. /X7.', 'skip')]).toEqual([7, 5]);
  });

  it('is certain of nothing where the switch is not known', () => {
    expect(isNumber(ends('/G0 X5.', 'either'))).toBe(false);
    expect(ends('/M8', 'either')).toBe(0);
    expect(ends('/G0 X0', 'either')).toBe(0);
  });
});

describe('modes', () => {
  it('a feed of another mode is none in this one (NISTIR 6556, 3.5.19)', () => {
    expect(runLines('g94 f100\ng93\ng94').state.feed.unset).toBe(true);
    expect(runLines('g94 f100\ng93 f2\ng94 f50').state.feed).toMatchObject({ unset: false, value: 50 });
    expect(runLines('g94 f100\ng94').state.feed).toMatchObject({ unset: false, value: 100 });
    expect(runLines('f100\ng94').state.feed.unset).toBe(false);
  });

  it('are kept with F and S, and put back (common practice, no source)', () => {
    const ran = runLines('g21 g90 f100 s500\nm70\ng20 g91 f5 s9\nm72');
    expect(onlyCode('units', ran.state.modes.units)).toBe('G21');
    expect(onlyCode('distance', ran.state.modes.distance)).toBe('G90');
    expect([ran.state.feed.value, ran.state.rig.speed]).toEqual([100, 500]);
    const offset = new NumericWorld('mm', () => null, { '5241': 10 });
    expect(runLines('g54\nm70\ng55\nm72', 'rs274ngc', numericStart({ X: 4 }), offset).at(0)).toEqual([4]);
  });

  it('a code that no mode lists makes its mode unknown', () => {
    expect(
      onlyCode('cutterCompensation', runLines('G40\nG41.2', 'macro').state.modes.cutterCompensation),
    ).toBe(null);
    expect(onlyCode('toolLength', runLines('G49\nG43.4', 'macro').state.modes.toolLength)).toBe(null);
  });

  it('a code means what its dialect says', () => {
    expect(onlyCode('latheDiameter', runLines('g7').state.modes.latheDiameter)).toBe('G7');
    expect(onlyCode('latheDiameter', runLines('G7', 'macro').state.modes.latheDiameter)).toBe(null);
    const builders = runLines('G40\nG41.1', 'macro').state.modes.cutterCompensation;
    expect(onlyCode('cutterCompensation', builders)).toBe('G40');
  });
});

describe('arguments of a macro call (common practice, no source)', () => {
  const bound = (line: string) => {
    const words = parseBlock(line, dialects.macro).items.filter((item) => item.kind === 'word');
    const entries = [...macroArguments(words)].map(([n, { value }]) => [
      n,
      value.kind === 'number' ? value.value : 0,
    ]);
    return Object.fromEntries(entries.sort(([a], [b]) => Number(a) - Number(b)));
  };

  it('go by letter, or in sets of I J K', () => {
    expect(bound('G65 P9001 A1. Z-5. F100 T3')).toEqual({ 1: 1, 9: 100, 20: 3, 26: -5 });
    expect(bound('G65 P9001 I1. J2. K3.')).toEqual({ 4: 1, 5: 2, 6: 3 });
    expect(bound('G65 P9001 A1. B2. C3. I4. J5. K6. I7. J8. K9. I10.')).toEqual({
      ...{ 1: 1, 2: 2, 3: 3, 4: 4, 5: 5, 6: 6, 7: 7, 8: 8, 9: 9, 10: 10 },
    });
  });

  it('have no effect in the calling block', () => {
    const ran = runLines('F50\nG65 P9001 F1000 S9 M3 X5.', 'macro');
    expect(ran.state.feed.value).toBe(50);
    expect([ran.at(0), onlyCode('spindle', ran.state.modes.spindle)]).toEqual([[0], null]);
  });
});
