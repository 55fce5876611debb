import { expect, test } from 'vitest';
import type { CompletionItem } from 'vscode-languageserver';
import { ruleIds } from '../../server/checks/registry.ts';
import { completion } from '../../server/editor/completion.ts';
import { resolveCompletion } from '../../server/editor/resolveCompletion.ts';
import { edited, openProgram } from './openProgram.ts';

function itemsAt(marked: string, trigger?: string): CompletionItem[] {
  const { program, caret } = openProgram(marked);
  return completion(program, caret, trigger);
}

const labels = (marked: string, trigger?: string) => itemsAt(marked, trigger).map(({ label }) => label);

function accepted(marked: string, label: string): string {
  const item = itemsAt(marked).find((each) => each.label === label);
  if (!item?.textEdit || !('range' in item.textEdit)) throw new Error(`${label} is not offered`);
  return edited(marked.replace('|', ''), [item.textEdit]);
}

test('codes of the dialect, after their letter or at a word’s start', () => {
  expect(labels('G38|')).toContain('G38.3');
  expect(labels('G21 g|')).toContain('G38.3');
  expect(labels('G21 |')).toEqual(expect.arrayContaining(['G38.3', 'M5']));
  expect(labels('M|')).not.toContain('G38.3');
  expect(labels('(probewright: dialect macro)\nG|')).toContain('G31');
  expect(labels('(probewright: dialect macro)\nG|')).not.toContain('G38.3');
});

test('an accepted code takes the place of what was typed, in its case', () => {
  expect(accepted('G21 G38|', 'G38.3')).toBe('G21 G38.3');
  expect(accepted('g21 g|', 'G90')).toBe('g21 g90');
});

test.each(['X|', 'X10|', 'G1 X|', '#1 = |', '(a remark about G|', '; G|'])(
  'no code is offered at %s',
  (marked) => {
    expect(labels(marked).filter((label) => /^[GM]\d/.test(label))).toEqual([]);
  },
);

test('a typed blank asks for no list', () => {
  expect(labels('G21 |', ' ')).toEqual([]);
  expect(labels('|', ' ')).toEqual([]);
});

test('parameters: those that can be meant here, then the control’s', () => {
  const program =
    '#<_shared> = 1\no<a> sub\n#<own> = 1\nG1 X#|\no<a> endsub\no<b> sub\n#<other> = 2\no<b> endsub';
  const found = labels(program);
  expect(found).toEqual(expect.arrayContaining(['#<own>', '#<_shared>', '#5061', '#5070']));
  expect(found).not.toContain('#<other>');
  expect(accepted('#<deep> = 1\nG1 X#<de|', '#<deep>')).toBe('#<deep> = 1\nG1 X#<deep>');
  expect(labels('(probewright: dialect macro)\n#|')).not.toContain('#5070');
});

test('rules inside an allowance, with their pages', () => {
  expect(labels('(probewright: |')).toContain('allow');
  expect(labels('(probewright: allow |')).toEqual(ruleIds);
  expect(accepted('G0 (probewright: allow mode|', 'mode-assumed')).toBe(
    'G0 (probewright: allow mode-assumed - ',
  );
  const [rule] = itemsAt('(probewright: allow |');
  expect(resolveCompletion(rule as CompletionItem).documentation).toHaveProperty(
    'value',
    expect.stringContaining('##'),
  );
});

test('a routine at the start of a line is written for the units in force and passes our checks', () => {
  const text = accepted('G20 G90 G94 G54\nprobe bo|', 'probe bore');
  expect(text).toMatch(/G38\.3/);
  const { program } = openProgram(`${text}\nM2\n`);
  expect(program.findings.map(({ rule, message }) => `${rule}: ${message}`)).toEqual([]);
});

test('a routine uses no name that the program has', () => {
  const before = '(probewright: dialect rs274ngc)\nG21 G90 G94\n';
  const [name] = /#<\w+>/.exec(accepted(`${before}|`, 'probe bore')) ?? [];
  const text = accepted(`${before}${name} = 77\nG0 X${name}\n|`, 'probe bore');
  const settings = text.split('\n').filter((line) => line.startsWith(`${name} =`));
  expect(settings).toEqual([`${name} = 77`]);
});

test('routines are written anew where what they must fit in with changes', () => {
  const texts = (marked: string) =>
    itemsAt(marked).flatMap(({ label, textEdit }) =>
      label.startsWith('probe ') ? (textEdit?.newText ?? []) : [],
    );
  const head = '(probewright: dialect rs274ngc)\nG21 G90 G94\n';
  const first = texts(`${head}G0 X1\n|`);
  expect(first.length).toBeGreaterThan(10);
  for (let x = 2; x < 4; x++) expect(texts(`${head}G0 X${x}\nG0 Y${x} (moved)\np|`)).toEqual(first);
  expect(texts(`${head.replace('G21', 'G20')}G0 X1\n|`)).not.toEqual(first);
  expect(texts(`${head.toLowerCase()}g0 x1\ng0 x2\n|`)).not.toEqual(first);
  expect(texts(`${head}  G0 X1\n  |`)).not.toEqual(first);
  const [name] = /^#<\w+>(?= =)/m.exec(first.join('\n')) ?? [];
  expect(texts(`${head}${name} = 1\nG0 X${name}\n|`)).not.toEqual(first);
  const [label] = /(?<=^o)\d+/m.exec(first.join('\n')) ?? [];
  expect(texts(`${head}o${label} if [#5070 EQ 1]\no${label} endif\n|`)).not.toEqual(first);
});

test('no routine is written from a profile that can’t be used, and none inside a block', () => {
  const { program, caret } = openProgram('probe|', { probe: { tipDiametre: 4 } });
  expect(completion(program, caret)).toEqual([]);
  expect(labels('G0 X10 probe|')).toEqual([]);
});

test('a line of a megabyte is left alone', () => {
  expect(labels(`${'X1'.repeat(500_000)} G|`)).toEqual([]);
});

test('codes that the block or the modes rule out are not offered, those used nearby come first', () => {
  expect(labels('G21 G90 G|')).not.toContain('G91');
  expect(labels('G21 G90 G|')).toContain('G94');
  expect(labels('G21 G90 G94 G41\nG|')).not.toContain('G38.2');
  expect(labels('G21 G90 G93\nG|')).not.toContain('G38.2');
  expect(labels('G21 G90 G94\nG|')).toContain('G38.2');
  const items = itemsAt('G21 G90\nG38.3 Z1 F1\nG|').sort((a, b) =>
    (a.sortText ?? '') < (b.sortText ?? '') ? -1 : 1,
  );
  const codes = items.map(({ label }) => label);
  expect(codes.indexOf('G38.3')).toBeLessThan(codes.indexOf('G2'));
});

test.each([
  ['o1 if [1]\n  G0\n|', ['o1 endif', 'o1 else', 'o1 elseif']],
  ['o<s> sub\no2 while [1]\n  o|', ['o2 endwhile', 'o2 break', 'o2 continue', 'o<s> endsub', 'o<s> return']],
  ['o1 do\no1 |', ['while', 'break', 'continue']],
  ['#<a>=1\no1 |', ['if', 'while', 'repeat', 'do', 'call', 'sub']],
  ['o<s> sub\no<s> endsub\no<s> |', ['call']],
  ['o1 repeat [2]\no1 end|', ['endrepeat', 'break', 'continue']],
])('O-words are matched to what is open: %j', (marked, expected) => {
  expect(
    labels(marked)
      .filter((label) => /^[a-z]/.test(label))
      .slice(0, expected.length),
  ).toEqual(expected);
});

test('a call of a subroutine brings its arguments, as places to fill where the editor has them', () => {
  const marked = 'o<in> sub (#1 = reach)\nG38.2 X#1 F#2\no<in> endsub\no<i|';
  const { program, caret } = openProgram(marked);
  const item = completion(program, caret, undefined, { snippets: true }).find(
    ({ label }) => label === 'o<in> call',
  );
  expect(item?.detail).toBe('o<in> call [reach] [feed]');
  expect(item?.textEdit?.newText).toBe(`o<in> call [\${1:reach}] [\${2:feed}]`);
  expect(accepted(marked, 'o<in> call').split('\n').at(-1)).toBe('o<in> call');
});

const macro = '(probewright: dialect macro)\nO0001\n';

test.each([
  ['IF[#1EQ1] |', ['GOTO', 'THEN']],
  ['WHILE[#1LT1]DO1\nWHILE[#2LT1] |', ['DO2']],
  ['WHILE[#1LT1]DO1\n|', ['END1', 'IF', 'WHILE', 'GOTO']],
  ['N5 G0\nN10 G0\nN90 M30\nIF[#1EQ1]GOTO|', ['90', '10', '5']],
  ['G65 P|\nM30\nO9001\n#100=#1\nM99', ['9001']],
  ['M98 P90|\nM30\nO9001\nM99', ['9001']],
  ['G66 P|\nM30\nO9001\nM99', ['9001']],
  ['G66.1 P9|\nM30\nO9001\nM99', ['9001']],
  ['M96 P|\nM30\nO9001\nM99', ['9001']],
])('macro flow: %j', (marked, expected) => {
  expect(labels(macro + marked).slice(0, expected.length)).toEqual(expected);
});

test('at the start of a comment of ours', () => {
  expect(labels('(|')).toEqual(['probewright:']);
  expect(accepted('(pro|', 'probewright:')).toBe('(probewright: ');
  expect(labels('(a remark|')).toEqual([]);
});
