import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { randomOf } from './random.ts';

const demo = fileURLToPath(new URL('../../client/walkthrough/demo', import.meta.url));

/** Files that no control would take, each under a name that says what is wrong with it. */
export const badPrograms: Readonly<Record<string, string | Buffer>> = {
  empty: '',
  'one percent sign': '%',
  'line endings alone': '\r\n\n\r\r\n',
  'every byte': Buffer.from(Array.from({ length: 65536 }, (_, i) => i % 256)),
  'half a line': 'G21 G90\nG38.2 Z-',
  'unclosed comment': '(\nG38.2 Z-10 F100\nG0 X5\n',
  'unclosed brackets': `#1 = ${'['.repeat(20_000)}\n`,
  'deep expression': `#1 = ${'[1 + '.repeat(20_000)}1${']'.repeat(20_000)}\n`,
  'parameters of parameters': `G0 X${'#'.repeat(50_000)}1\n`,
  'a line of 1 MB': `G1 ${'X1 '.repeat(350_000)}\n`,
  'a comment of 1 MB': `(${'x'.repeat(1_000_000)})\n`,
  'a number of 1 MB': `G1 X${'9'.repeat(1_000_000)}\n`,
  'unclosed flow': 'o1 while [1]\no2 if [#1 EQ 2]\no3 sub\no4 repeat [3]\n'.repeat(2000),
  'a jump to itself': 'O1\nN10 GOTO 10\nM30\n',
  'calls in a circle': 'o<a> sub\no<b> call\no<a> endsub\no<b> sub\no<a> call\no<b> endsub\no<a> call\nM2\n',
  'a macro that calls itself': 'O9000\nG65 P9000\nM99\n',
  'UTF-16': Buffer.from('\ufeffG21 G90\nG38.2 Z-10 F100\nG0 X5\nM2\n', 'utf16le'),
  'beyond the basic plane': `(${'𝔾'.repeat(1000)})\nG38.2 Z-10 F100 (𝔾)\nG0 X5\n`,
  'lone surrogates': '(\ud800) G38.2 Z-10 F100 (\udc00)\nG0 X5\n',
};

/** The demo programs with a seeded wound each: a piece cut out, doubled, moved, or some bytes changed. */
export function woundedPrograms(count: number, seed: number): Readonly<Record<string, Buffer>> {
  const { below } = randomOf(seed);
  const names = readdirSync(demo).filter((name) => /\.(ngc|nc)$/.test(name));
  const wounded: Record<string, Buffer> = {};
  for (let i = 0; i < count; i++) {
    const name = names[below(names.length)] ?? '';
    const whole = readFileSync(path.join(demo, name));
    const [from, to] = [below(whole.length), below(whole.length)].sort((a, b) => a - b) as [number, number];
    const [head, piece, tail] = [whole.subarray(0, from), whole.subarray(from, to), whole.subarray(to)];
    const noise = Buffer.from(Array.from({ length: 1 + below(8) }, () => below(256)));
    const wounds = [
      [head, tail],
      [head, piece, piece, tail],
      [tail, piece, head],
      [head, noise, tail],
      [head, noise, piece, noise, tail],
    ];
    wounded[`${String(i).padStart(4, '0')}-${name}`] = Buffer.concat(wounds[below(wounds.length)] ?? []);
  }
  return wounded;
}
