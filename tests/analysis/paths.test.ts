import { describe, expect, test } from 'vitest';
import { analysed, departuresOf, untestedOf } from './analysed.ts';

describe('what follows a touch', () => {
  test('a retract by a step, by a saved start, by the latched position', () => {
    expect(departuresOf(analysed('G21 G91 G94\nG38.2 X10 F40\nG0 X-2\nM2'))).toEqual(['2>3 retract -2']);
    expect(departuresOf(analysed('G21 G90 G94\n#1=#<_x>\nG38.2 X[#1+10] F40\nG0 X#1\nM2'))).toEqual([
      '3>4 retract',
    ]);
    expect(departuresOf(analysed('G21 G90 G94\nG0 X0\nG38.2 X10 F40\nG0 X[#5061-3]\nM2'))).toEqual([
      '3>4 retract -3',
    ]);
  });

  test('further in, sideways, another touch, the end', () => {
    const after = (line: string) =>
      departuresOf(analysed(`G21 G91 G94\nG38.2 X10 F40\n${line}\nM2`)).map((d) => d.slice(4));
    expect(after('G0 X1')).toEqual(['further-in 1']);
    expect(after('G0 Y5')).toEqual(['sideways 0']);
    expect(after('G38.2 X1 F10')).toEqual(['touch-again', 'program-end']);
    expect(after('(nothing)')).toEqual(['program-end']);
    expect(after('M6 T2')).toEqual(['tool-change']);
    expect(after('G53 G0 X0')).toEqual(['machine-coordinates']);
    expect(after('G53 G0 Z0')).toEqual(['sideways 0']);
  });

  test('on every path: a branch, a jump, a call', () => {
    expect(
      departuresOf(
        analysed('G21 G91 G94\nG38.2 X10 F40\no1 if [#9 EQ 1]\nG0 X-2\no1 else\nG0 X2\no1 endif\nM2'),
      ),
    ).toEqual(['2>4 retract -2', '2>6 further-in 2']);
    expect(
      departuresOf(
        analysed(
          'O1\nG21 G91 G94\nG31 X10. F40.\n#1=#5061+2.\nIF[#9EQ1]GOTO5\nG0 X-2.\nN5 G0 Y3.\nM30',
          'macro',
        ),
      ),
    ).toEqual(['3>6 retract -2', '3>7 sideways 0']);
    const call = 'o<t> sub\nG38.2 X10 F40\no<t> endsub\nG21 G91 G94\no<t> call\nG0 X-2\no<t> call\nG0 X2\nM2';
    expect(departuresOf(analysed(call))).toEqual(['2>6 retract -2', '2>8 further-in 2']);
  });

  test('where the touch met nothing the tip is free', () => {
    const presence = 'G21 G91 G94\nG38.3 X10 F40\n#1=[#5061+1]\no1 if [#5070 EQ 1]\nG0 X-2\no1 endif\nM2';
    expect(departuresOf(analysed(presence))).toEqual(['2>5 retract -2']);
    const byPosition =
      'O1\nG21 G90 G94\n#1=-20.\nG31 Z#1 F50\nIF[ABS[#5063-#1]LT0.01]GOTO9\n#2=#5063+1.\nG91 G0 Z3.\nM30\nN9 M30';
    expect(departuresOf(analysed(byPosition, 'macro'))).toEqual(['4>7 retract 3'.replace('3', '-3')]);
  });

  test('travel that is guarded by touches is no touch to retract from', () => {
    const guarded =
      'G21 G90 G94\nG0 X0 Y0 Z10\nG38.3 X50 F500\no1 if [#5070 EQ 1]\n(abort, hit)\no1 endif\nG38.3 Z-5\no2 if [#5070 EQ 1]\n(abort, hit)\no2 endif\nM2';
    expect(departuresOf(analysed(guarded))).toEqual([]);
  });
});

describe('a result used before anything tested it', () => {
  const use = (test: string) =>
    untestedOf(analysed(`G21 G91 G94\nG38.3 Z-10 F40\nG0 Z5\n${test}\nG10 L20 P1 Z[#<_z>-#5063]\nM2`));
  test('tests in the forms that people write', () => {
    expect(use('(none)')).toEqual(['2>5 offset']);
    expect(use('o1 if [#5070 EQ 0]\n(abort, none)\no1 endif')).toEqual([]);
    expect(use('o1 if [#5070]\no1 else\n(abort, none)\no1 endif')).toEqual([]);
    expect(use('#1=#5070\no1 if [#1 NE 1]\n(abort, none)\no1 endif')).toEqual([]);
    expect(use('o1 if [ABS[#5063-#2] LT 0.01]\n(abort, none)\no1 endif')).toEqual([]);
  });

  test('a test on one path only, a test of an older touch', () => {
    expect(use('o2 if [#9 EQ 1]\no1 if [#5070 EQ 0]\n(abort, none)\no1 endif\no2 endif')).toEqual([
      '2>9 offset',
    ]);
    const older =
      'G21 G91 G94\nG38.3 Z-10 F40\no1 if [#5070 EQ 0]\n(abort, none)\no1 endif\nG0 Z1\nG38.3 Z-2 F10\nG0 Z5\nG10 L20 P1 Z[#<_z>-#5063]\nM2';
    expect(untestedOf(analysed(older))).toEqual(['7>9 offset']);
  });

  test('arithmetic counts only where no test comes later', () => {
    const program = (later: string) => `G21 G91 G94\nG38.3 Z-10 F40\n#1=[#5063-1]\nG0 Z5\n${later}\nM2`;
    expect(untestedOf(analysed(program('(none)')))).toEqual(['2>3 arithmetic']);
    expect(untestedOf(analysed(program('o1 if [#5070 EQ 0]\n(abort, none)\no1 endif')))).toEqual([]);
  });

  test('in a caller: the flag that a subroutine hands back', () => {
    const program = (test: string) =>
      `o<t> sub\nG38.3 Z-10 F40\n#<_ok>=#5070\nG0 Z5\no<t> endsub\nG21 G91 G94\no<t> call\n${test}\nG10 L20 P1 Z[#<_z>-#5063]\nM2`;
    expect(untestedOf(analysed(program('o1 if [#<_ok> EQ 0]\n(abort, none)\no1 endif')))).toEqual([]);
    expect(untestedOf(analysed(program('(none)')))).toEqual(['2>9 offset']);
  });
});

describe('flow that does not fit together', () => {
  const faults = (p: string, d?: 'macro') =>
    analysed(p, d).flowFaults.map((f) => `${f.place.line + 1} ${f.code} ${f.detail}`);
  test('O-words', () => {
    expect(faults('o1 if [1]\nG0 X1\nM2')).toEqual(['1 missing-end if']);
    expect(faults('o1 endif\nM2')).toEqual(['1 missing-start endif']);
    expect(faults('o1 while [1]\no1 endif\nM2')).toEqual(['2 wrong-keyword endif while']);
    expect(faults('o1 while [1]\no1 else\nM2')).toEqual([
      '2 wrong-keyword else while',
      '1 missing-end while',
    ]);
    expect(faults('o1 sub\no2 if [1]\no1 endsub\no2 endif\nM2')).toEqual(['3 endsub-inside if']);
    expect(faults('o1 sub\nG0 X1')).toEqual(['1 missing-end sub']);
    expect(faults('o1 break\nM2')).toEqual(['1 outside-loop break']);
    expect(faults('o1 do\nG0 X1\no1 while [#1 LT 3]\nM2')).toEqual([]);
    expect(faults('o1 if [#1]\no1 elseif [#2]\no1 else\no1 endif\nM2')).toEqual([]);
  });

  test('the macro family', () => {
    expect(faults('GOTO5\nM30', 'macro')).toEqual(['1 missing-label 5']);
    expect(faults('GOTO1\nN01 M30', 'macro')).toEqual([]);
    expect(faults('WHILE[#1LT3]DO1\nM30', 'macro')).toEqual(['1 missing-end DO1']);
    expect(faults('END1\nM30', 'macro')).toEqual(['1 missing-start END1']);
  });
});

describe('what holds at a line', () => {
  test('modes, feed, position and parameters, joined over paths', () => {
    const a = analysed('G21 G90 G94\nG0 X1 Y2\n#1=5\no1 if [#9]\nG91\no1 endif\nG1 Z3 F100\nM2');
    expect(a.stateAt(3)).toMatchObject({ position: { x: 1, y: 2, z: null }, feed: null });
    expect(a.stateAt(3)?.parameter('#1')).toBe(5);
    expect(a.stateAt(6)?.modes.distance).toEqual(['G90', 'G91']);
    expect(a.stateAt(7)?.feed).toBe(100);
  });

  test('nothing where no path gets', () => {
    expect(analysed('GOTO2\nN1 G0 X1\nN2 M30', 'macro').stateAt(1)).toBeNull();
  });

  test('behind a hundred thousand plain blocks', () => {
    const run = Array.from({ length: 100_000 }, (_, i) => `G1 X${i % 7} Y0.5 F${100 + (i % 3)}`).join('\n');
    const a = analysed(`G21 G91 G94\nG0 X0 Y0\nG90\nG0 X0 Y0\nG91\n${run}\nG90\nG38.2 Y99999 F50\nG0 Y0\nM2`);
    expect(a.touches[0]?.travel).toBeCloseTo(99_999 - 50_000, 6);
    expect(a.stateAt(100_005)?.feed).toBe(100 + (99_999 % 3));
  });
});

describe('what can not be followed is said', () => {
  test('a call into another file, a subroutine that calls itself, cyclic calls', () => {
    const reasons = (p: string) =>
      analysed(p).notKnown.map((n) => `${n.place.line + 1} ${n.reason.slice(0, 30)}`);
    expect(reasons('G21 G90 G94\no<other> call\nG38.2 Z-5 F40\nG0 Z5\nM2')).toEqual([
      '2 a call into a file that is not',
    ]);
    expect(reasons('o<a> sub\nG38.2 Z-5 F40\nG0 Z5\no<a> call\no<a> endsub\no<a> call\nM2')).toEqual([
      '4 a subroutine that calls itself',
    ]);
    expect(
      reasons(
        'o<a> sub\no<b> call\no<a> endsub\no<b> sub\nG38.2 Z-5 F1\no<a> call\no<b> endsub\no<a> call\nM2',
      ),
    ).toEqual(['6 a subroutine that calls itself']);
  });

  test('after it the program is given the benefit of the doubt', () => {
    const a = analysed('o<other> call\nG38.3 Z-5\n#1=[#5063+1]\no<other> call\nM2');
    expect(a.touches[0]?.feed).toMatchObject({ unset: false, value: null });
    expect(a.touches[0]?.modes.units).toEqual(['unknown']);
    expect(untestedOf(a)).toEqual([]);
  });
});

describe('a path of many touches', () => {
  const many = (block: (i: number) => string) =>
    `G21 G91 G94\nF50\n${Array.from({ length: 600 }, (_, i) => block(i)).join('\n')}\nM2`;

  test('each is judged, however many went before', () => {
    const untested = analysed(many(() => 'G38.3 Z-5\nG0 Z2\nG10 L20 P1 Z[#<_z>-#5063]'));
    expect(untestedOf(untested)).toHaveLength(600);
    const dragged = analysed(many((i) => `o${i + 1} if [#9 EQ ${i}]\nG38.2 X5\nG0 Y1\no${i + 1} endif`));
    expect(departuresOf(dragged)).toHaveLength(600);
  });

  test('a centre of the first and the last is still known', () => {
    const a = analysed(
      many((i) => `G38.2 X5\n#${100 + i}=#5061\nG0 X-2`).replace('M2', 'G10 L2 P1 X[[#100+#699]/2]\nM2'),
    );
    expect(a.datums[0]?.terms?.map((t) => t.touch.line + 1)).toEqual([3, 1800]);
  });
});
