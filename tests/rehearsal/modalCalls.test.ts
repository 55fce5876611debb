import { describe, expect, test } from 'vitest';
import { plate, rehearsed } from './rehearsed.ts';

const head = 'O1\nG21 G90 G94 G17 G40\n';
const touching = (body: string) =>
  `O9010\nG91\nG31 Z-30. F60\nIF[ABS[#5063+10.]LT0.05]GOTO90\nG90\nG0 Z20.\n${body}\nM99\nN90 #3000=1(NO CONTACT)\n`;

function run(program: string) {
  const { undisturbed } = rehearsed(program, plate, { dialect: 'macro', options: { faults: [] } });
  const { record } = undisturbed;
  return {
    touches: record.touches.map(({ line, latched }) => `${line + 1}: ${latched.map(Math.round).join(' ')}`),
    parameters: Object.fromEntries(record.parameters),
    end: record.end,
    endLine: record.endLine + 1,
  };
}

/** What G66 calls and when: common practice, no source. */
describe('a macro called after each motion', () => {
  test('touches where each block ended, until G67, with locals that stay', () => {
    const program = `${head}G0 Z20.\nG66 P9010 A2.\nX10.\nM5\nX20. Y5.\nG67\nX30.\nM30\n${touching('#1=#1+1\n#500=#1')}`;
    expect(run(program)).toMatchObject({
      touches: ['13: 10 0 0', '13: 20 5 0'],
      parameters: { '#500': 4 },
      end: { kind: 'program-end' },
    });
  });

  test('L times each', () => {
    const { touches } = run(`${head}G0 Z20.\nG66 P9010 L2\nX10.\nG67\nM30\n${touching('')}`);
    expect(touches).toHaveLength(2);
  });

  test('in a subprogram and in a loop of the caller', () => {
    const program = `${head}G0 Z20.\n#100=0\nG66 P9010\nWHILE[#100LT2]DO1\n#100=#100+1\nX[#100*10]\nEND1\nM98 P2\nG67\nM30\nO2\nX40.\nM99\n${touching('')}`;
    expect(run(program).touches).toEqual(['18: 10 0 0', '18: 20 0 0', '18: 40 0 0']);
  });

  test('two at once: the motions of the later macro call the earlier, whose own call nothing', () => {
    const count = (name: number, more: string) => `O${name}\n#${name}=#${name}+1\n${more}\nM99\n`;
    const program = `${head}#501=0\n#502=0\nG66 P501\nX1.\nG66 P502\nX2.\nG67\nX3.\nG67\nX4.\nM30\n${count(501, 'Y1.\nY2.')}${count(502, 'Y3.\nY4.')}`;
    // X1 and X3 once each, X2 by way of the two motions of the other macro.
    expect(run(program).parameters).toMatchObject({ '#501': 4, '#502': 1 });
  });

  test('the words of blocks under G66.1', () => {
    const program = `${head}#500=0\nG66.1 P9\nX5. A1.\nX7. A2.\nG67\nM30\nO9\n#500=#500*100+#24*10+#1\nM99\n`;
    expect(run(program).parameters).toMatchObject({ '#500': 5172 });
  });

  test('one that ends the program, is not there, or starts itself', () => {
    expect(run(`${head}G66 P9\nX5.\nX6.\nM30\nO9\nM30\n`)).toMatchObject({
      end: { kind: 'program-end' },
      endLine: 4,
    });
    expect(run(`${head}G66 P9\nX5.\nM30\n`).end).toMatchObject({ kind: 'not-followed' });
    expect(run(`${head}G66 P9\nX5.\nM30\nO9\nG66 P9\nY5.\nM99\n`).end.kind).toBe('endless');
    expect(run(`${head}G66 P9\nX5.\nM30\nO9\nG67\nY5.\nM99\n`).end.kind).toBe('program-end');
  });

  test('blocks called by M97, and motions that the text does not tell, end what can be said', () => {
    expect(run(`${head}M97 P100\nM30\nN100 G0 X5.\nM99\n`).end).toMatchObject({
      kind: 'not-followed',
      text: 'a call of blocks of the program by M97',
    });
    expect(run(`${head}G0 Z20.\nG37 Z-5. H3\nM30\n`).end).toMatchObject({ kind: 'not-followed', line: 3 });
  });

  test('the setting that keeps a program for a signal changes nothing of the undisturbed run', () => {
    const program = `${head}G0 Z20.\nM96 P9010\nX10.\nM97\nM30\n${touching('')}`;
    expect(run(program)).toMatchObject({ touches: [], end: { kind: 'program-end' } });
  });
});
