import { expect, test } from 'vitest';
import { runBounded, runCases } from './anyProgram.ts';

// On a busy machine wall time is several times the CPU time.
const timeout = 120_000;

test('any program goes through its layers: nothing thrown, lost or outside the text', {
  timeout,
}, async () => {
  await expect(runCases(1, 400)).resolves.toBeUndefined();
});

const odd: Readonly<Record<string, string>> = {
  'a jump to a number of 300 digits': `N1 GOTO${'9'.repeat(300)}\nN${'9'.repeat(300)}\nM30`,
  'calls in a circle, of both kinds':
    'O1000\nM98 P2000\nM99\nO2000\nG65 P1000 A1.\nM99\no<a> sub\no<a> call\no<a> endsub\no<a> call',
  'a call of itself at every motion': 'O1000\nG66 P1000\nX1.\nM97 P1\nN1 M99',
  'jumps to a computed label': 'N1 #1=#1+1\nGOTO#1\nN2 GOTO[#1*10]\nN10 IF[#1]GOTO#[#1]\nM30',
  'thousands of nested brackets': `#1=${'['.repeat(5000)}1${']'.repeat(5000)}\nX${'SIN['.repeat(5000)}`,
  'hundreds of open blocks': 'o1 if [1]\n'.repeat(400) + 'WHILE[1]DO1\n'.repeat(400),
  'characters of no block': '\ufeff\u0000G0\u0000X1\r\rG1 \ud800X2 \udc00\r\n\u001aG38.2 Z-',
};

test.each(Object.entries(odd))('%s', { timeout }, async (_, text) => {
  for (const dialect of ['rs274ngc', 'macro'] as const)
    for (let seed = 1; seed < 6; seed++) await runBounded(text, dialect, { seed });
});
