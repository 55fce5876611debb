import { describe, expect, test } from 'vitest';
import { analysed, datumsOf, departuresOf, untestedOf } from './analysed.ts';

const head = 'O1\nG21 G90 G94 G17 G40\nG0 X0 Y0 Z5.\n';
const of = (program: string) => analysed(program, 'macro');

/** What G66 calls and when: common practice, no source. */
describe('a macro called after each motion', () => {
  const touch = 'O9\nG31 Z-10. F40\n#120=#5063\n#121=#120*2\nM99\n';

  test('its touch is one for each motion, with where the motion ended', () => {
    const a = of(`${head}G66 P9\nX10.\nX20.\nG67\nX30.\nM30\n${touch}`);
    expect(a.touches.map(({ line, calls }) => `${line + 1} by ${calls.map((l) => l + 1)}`)).toEqual([
      '11 by 5',
      '11 by 6',
    ]);
    expect(departuresOf(a)).toEqual(['11>6 sideways 0', '11>8 sideways 0']);
  });

  test('its result is followed to the datum', () => {
    const a = of(`${head}G66 P9\nX10.\nG67\nG0 Z5.\n#5223=#5223+#120\nM30\n${touch}`);
    expect(datumsOf(a)).toEqual(['G54.z = 1*m11z']);
    expect(untestedOf(a)).toEqual(['11>13 arithmetic', '11>8 offset']);
  });

  test('arguments and what is kept from call to call', () => {
    const a = of(
      `${head}G66 P9 Z-3. R2.\nX10.\nX20.\nG67\nM30\nO9\nG31 Z#26 F40\n#18=#18+1.\nG0 Z5.\n#130=#18\nM99\n`,
    );
    expect(a.touches.map(({ travel }) => travel)).toEqual([8, 8]);
    expect(a.stateAt(6)?.parameter('#130')).toBe(4);
    expect(a.stateAt(5)?.parameter('#130')).toBe(3);
  });

  test('in a called subprogram, on one side of a branch, in a loop', () => {
    const counted = (program: string) => of(program).touches.length;
    expect(counted(`${head}G66 P9\nM98 P2\nG67\nM30\nO2\nX10.\nM99\n${touch}`)).toBe(1);
    expect(counted(`${head}IF[#101EQ1]GOTO5\nG66 P9\nN5 X10.\nG67\nM30\n${touch}`)).toBe(1);
    expect(counted(`${head}G66 P9\nWHILE[#101LT5]DO1\nX[#101]\n#101=#101+1\nEND1\nG67\nM30\n${touch}`)).toBe(
      1,
    );
  });

  test('two at once', () => {
    const a = of(`${head}G66 P9\nG66 P8\nX10.\nG67\nG67\nM30\nO8\nY5.\nM99\n${touch}`);
    expect(a.touches.map(({ line, calls }) => `${line + 1} by ${calls.map((l) => l + 1)}`)).toEqual([
      '14 by 6,11',
    ]);
  });

  test('what holds before and behind each line is that of the macro too', () => {
    const a = of(
      `${head}G66 P9\nX10.\n#100=1\nX20.\nG67\nX30.\nM30\nO9\n#130=#130+1\nG91\nG0 Y1.\nG90\nM99\n`,
    );
    const y = (line: number) => a.stateAt(line - 1)?.position.y ?? null;
    expect([5, 6, 7, 8, 9, 10].map(y)).toEqual([0, 1, 1, 2, 2, 2]);
  });

  test('one that is not there leaves nothing known behind, and says so once', () => {
    const a = of(`${head}G66 P9\nX10.\nX20.\nG67\nG0 Y0\nG31 Z-5. F50\nM30\n`);
    expect(a.notKnown.map(({ place, reason }) => `${place.line + 1} ${reason}`)).toEqual([
      '4 a call into a file that is not at hand: what it leaves behind is unknown',
    ]);
    expect(a.stateAt(6)?.position).toEqual({ x: null, y: null, z: null });
    expect(a.stateAt(6)?.modes.distance).toEqual(['unknown']);
  });

  test('one that calls itself, jumps, never comes back or is started by a loop is bounded', () => {
    for (const program of [
      `${head}G66 P9\nX5.\nM30\nO9\nG66 P9\nY5.\nM99\n`,
      `${head}G66 P1\nX5.\nX6.\nM30\n`,
      `${head}WHILE[#101LT5]DO1\nG66 P9\nX5.\nEND1\nM30\nO9\nY5.\nM99\n`,
      `${head}G66 P9\nX5.\nM30\nO9\nM30\n`,
      `${head}G66 P9\nX5.\nM30\nO9\n#3000=1(NO)\n`,
      `${head}G66 P#500\nX5.\nM30\n`,
      `${head}/G66 P9\n/X5.\nX6.\n/G67\nM30\nO9\nY5.\nM99\n`,
      `${head}G66.1 P9\nX5.\nM98 P9\nM30\nO9\nG67\nY5.\nM99\n`,
    ])
      expect(of(program).touches).toEqual([]);
  });

  test('thousands of motions: followed up to a bound, the rest as after a call that is not known', () => {
    const moves = Array.from({ length: 20_000 }, (_, i) => `X${i % 50}.`).join('\n');
    const a = of(`${head}G66 P9\n${moves}\nG67\nM30\n${touch}`);
    expect(a.notKnown.map(({ reason }) => reason)).toEqual(['more motions under a G66 than are followed']);
    expect(a.touches.length).toBe(500);
  });
});
