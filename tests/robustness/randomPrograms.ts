import type { DialectName } from '../../server/syntax/dialect.ts';
import { samples } from './editedPrograms.ts';
import type { Random } from './random.ts';

type Line = (random: Random) => string;

const numbers = [
  '0',
  '1',
  '-1',
  '2.5',
  '-.25',
  '+3.',
  '007',
  '99999999',
  '1e5',
  '9'.repeat(400),
  '.',
  '#',
  '1.2.3',
];
const labels = ['1', '2', '3', '10', '9000', '<a>', '<a b>', '#1', '[#1+1]', ''];
const functions = [
  'SIN',
  'ATAN',
  'ABS',
  'FIX',
  'FUP',
  'ROUND',
  'SQRT',
  'LN',
  'EXP',
  'EXISTS',
  'ACOS',
  'BIN',
  'nope',
];
const operators = [
  '+',
  '-',
  '*',
  '/',
  '**',
  ' MOD ',
  ' AND ',
  ' OR ',
  ' XOR ',
  ' EQ ',
  ' NE ',
  ' GT ',
  ' LE ',
  '!',
];
const gCodes =
  `0 1 2 3 4 5.1 7 8 9 10 11 12 15 16 17 18 19 20 21 22 23 28 28.1 30 31 33 38.2 38.3 38.4 38.5 40 41 42
  43 43.1 43.4 44 49 50 51 52 53 54 54.1 55 59.3 61 61.1 64 65 66 67 68 68.2 69 73 76 80 81 82 83 84 85 86 87 88 89 90
  90.1 91 91.1 92 92.1 92.2 92.3 93 94 95 96 97 98 99 103 999 1.5 -1`.split(/\s+/);
const mCodes = '0 1 2 3 4 5 6 7 8 9 19 30 48 52 60 61 62 66 70 71 72 73 97 98 99 100 199 1000'.split(' ');
const noise = [
  '%',
  '(',
  ')',
  '[',
  ']',
  '<',
  '>',
  '=',
  '"',
  '{x}',
  ';',
  '\t',
  ' ',
  '\u0000',
  '\ufeff',
  '𝔾',
  '\ud800',
  'é',
  '\r',
];

function expression(random: Random, depth = 0): string {
  const pick = random.below(depth > 4 ? 3 : 8);
  const inner = () => expression(random, depth + 1);
  if (pick < 2) return random.of(numbers);
  if (pick < 3)
    return `#${random.of(['0', '1', '2', '100', '500', '3000', '3006', '5061', '5063', '5070', '5221', '<a>', '<_g>', '31', '12345678'])}`;
  if (pick < 4) return `#[${inner()}]`;
  if (pick < 5) return `#${inner()}`;
  if (pick < 6) return `${random.of(functions)}[${inner()}]${random.below(4) ? '' : `/[${inner()}]`}`;
  if (pick < 7) return `[${inner()}]`;
  return `[${inner()}${random.of(operators)}${inner()}]`;
}

const word: Line = (random) =>
  random.of([...'XYZXYZABCUVWIJKRPQLDHFSTE@,']) + expression(random, random.below(3) ? 5 : 0);
const words: Line = (random) =>
  Array.from({ length: random.below(5) }, () => word(random)).join(random.of(['', ' ']));
const condition: Line = (random) =>
  `[${expression(random, 3)}${random.of(operators)}${expression(random, 3)}]`;

const shared: readonly Line[] = [
  (r) => `G${r.of(gCodes)} ${words(r)}`,
  (r) => `G${r.of(gCodes)}G${r.of(gCodes)}${words(r)}`,
  (r) => `M${r.of(mCodes)} ${words(r)}`,
  (r) => words(r),
  (r) => `#${r.of(['1', '2', '100', '5221', '<a>', '#1', '[#1+1]', '3000', '0', '4001'])}=${expression(r)}`,
  (r) => `N${r.of(labels)} ${words(r)}`,
  (r) => `/${r.of(['', '2', '99'])}${words(r)}`,
  (r) =>
    `G38.${r.of(['2', '3', '4', '5'])} ${r.of(['X', 'Y', 'Z', 'A'])}${expression(r, 4)} F${expression(r, 4)}`,
  (r) => `G31 Z${expression(r, 4)} F${expression(r, 4)}`,
  (r) =>
    `(${r.of(['MSG,', 'DEBUG,', 'print,', 'log,', 'abort,', 'probe', 'LOGOPEN,', 'probewright:', ''])} #1 ${r.of(noise)})`,
  (r) =>
    `(probewright: ${r.of(['allow', 'dialect', 'allo'])} ${r.of(['syntax', 'modal-conflict - why', 'macro', 'rs274ngc', ''])})`,
  (r) => r.of(['%', '', 'O9000', 'M30', 'M2', 'M99', 'M98 P9000 L9999999', 'M98 P#1']),
  (r) => Array.from({ length: r.below(12) }, () => r.of(noise)).join(''),
];

const own: Readonly<Record<DialectName, readonly Line[]>> = {
  rs274ngc: [
    (r) =>
      `o${r.of(labels)} ${r.of(['sub', 'endsub', 'call', 'return', 'do', 'break', 'continue', 'else', 'endif', 'endwhile', 'endrepeat', 'subb'])}`,
    (r) => `o${r.of(labels)} ${r.of(['if', 'elseif', 'while', 'repeat'])} ${condition(r)}`,
    (r) =>
      `o${r.of(labels)} call ${Array.from({ length: r.below(34) }, () => `[${expression(r, 5)}]`).join(' ')}`,
    (r) => `o${r.of(labels)} ${r.of(['return', 'endsub'])} [${expression(r)}]`,
  ],
  macro: [
    (r) =>
      `IF${condition(r)}${r.of(['GOTO', 'THEN', 'GOTO ', ''])}${r.of(['#1=2', '10', '#1', '[#1*10]', ''])}`,
    (r) => `WHILE${condition(r)}DO${r.of(['1', '2', '3', '4', '#1'])}`,
    (r) => `${r.of(['DO', 'END'])}${r.of(['1', '2', '3', ''])}`,
    (r) => `GOTO${expression(r, r.below(2) ? 5 : 2)}`,
    (r) => `G65 P${r.of(['9000', '1000', '#1', '0'])} ${words(r)}`,
    (r) => `G66 P9000 ${words(r)}`,
    (r) => `O${r.of(['9000', '1000', '2000', '#1'])}${r.of(['', '(a)'])}`,
    (r) => `N${r.of(['1', '2', '10'])}`,
    (r) => `${r.of(['POPEN', 'PCLOS', 'DPRNT[X#1[53]]', 'BPRNT[#1[3]]', 'DPRNT['])}`,
    (r) => `#3000=${r.of(['1(no)', '[#1]', ''])}`,
  ],
};

/** A line of a dialect's grammar, with wrong values, wrong places and missing ends among the right ones. */
function randomLine(random: Random, dialect: DialectName): string {
  return random.of(random.below(2) ? own[dialect] : shared)(random);
}

/** A program: most lines of the grammar, some samples with lines moved, some with characters changed. */
export function randomProgram(random: Random, dialect: DialectName): string {
  const lines =
    random.below(8) === 0
      ? movedSample(random)
      : Array.from({ length: random.below(14) }, () => randomLine(random, dialect));
  const text = lines.join(random.of(['\n', '\n', '\r\n', '\r']));
  return random.below(3) ? text : wounded(text, random);
}

function movedSample(random: Random): string[] {
  const all = random.of(samples).text.split('\n');
  const from = random.below(all.length);
  const lines = all.slice(from, from + 1 + random.below(25));
  for (let k = random.below(4); k > 0; k--) {
    const at = random.below(lines.length + 1);
    lines.splice(at, random.below(3), random.of(all), randomLine(random, random.of(['rs274ngc', 'macro'])));
  }
  return lines;
}

/** Characters taken out, doubled, or put in. */
function wounded(text: string, random: Random): string {
  let result = text;
  for (let k = 1 + random.below(4); k > 0; k--) {
    const at = random.below(result.length + 1);
    const to = Math.min(result.length, at + random.below(6));
    const put = random.of([
      '',
      result.slice(at, to).repeat(2),
      random.of(noise),
      String.fromCharCode(random.below(random.below(2) ? 128 : 65536)),
    ]);
    result = result.slice(0, at) + put + result.slice(to);
  }
  return result;
}
