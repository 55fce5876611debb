import { describe, expect, test } from 'vitest';
import { toMarkdown } from '../../server/editor/richText.ts';
import { sheetParts } from '../../server/editor/sheetParts.ts';
import { column, row, rowsUnder, type Sheet } from '../../server/report/sheet.ts';
import { sheetText } from '../../server/report/sheetText.ts';
import { styleFor } from '../../server/report/style.ts';

const sheet: Sheet = {
  name: 'ring.csv',
  about: '2 touches',
  rows: [
    row('diameter', 'effective 3.96 mm', 'main'),
    ...rowsUnder('lobes', ['order 3: 4 µm', 'order 6: 1 µm']),
    row('touches', 'direction, radius', 'plain', {
      columns: [column('Line', 'line '), column('Approach'), column('Effective radius', 'r ')],
      rows: [
        { cells: ['9', '0.0°', '1.98 mm'], tone: 'plain' },
        { cells: ['10', '90.0°', '1.99 mm'], tone: 'warning' },
      ],
    }),
    row('centre', 'X 0\nY 1'),
  ],
  notes: [row('warning', 'line 10 stands out', 'warning'), row('note', 'One axis only.', 'aside')],
};

describe('one sheet', () => {
  test('in a terminal: labels once, a table under its row, columns to the right', () => {
    expect(sheetText(sheet, styleFor(false), 80)).toBe(
      [
        'ring.csv  2 touches',
        '        diameter          effective 3.96 mm',
        '        lobes             order 3: 4 µm',
        '                          order 6: 1 µm',
        '        touches           direction, radius',
        '        line  9   0.0°  r 1.98 mm',
        '        line 10  90.0°  r 1.99 mm',
        '        centre            X 0',
        '                          Y 1',
        '        warning           line 10 stands out',
        '        note              One axis only.',
        '',
      ].join('\n'),
    );
  });

  test('on a page: each row named, tables after them with heads of their own, notes as a list', () => {
    expect(toMarkdown(sheetParts(sheet), { pictures: false })).toBe(
      [
        'ring.csv, 2 touches',
        '| Property | Value |\n| --- | --- |\n| diameter | effective 3.96 mm |\n| lobes | order 3: 4 µm |\n| lobes | order 6: 1 µm |\n| centre | X 0; Y 1 |',
        '**touches**: direction, radius',
        '| Line | Approach | Effective radius |\n| --: | --: | --: |\n| 9 | 0.0° | 1.98 mm |\n| **10** | **90.0°** | **1.99 mm** |',
        '- **warning**: line 10 stands out\n- One axis only.',
      ].join('\n\n'),
    );
  });

  test('colours follow the tone, in a terminal alone', () => {
    const coloured = sheetText(sheet, styleFor(true), 80);
    expect(coloured).toContain('\u001b[1meffective 3.96 mm\u001b[22m');
    expect(coloured).toContain('\u001b[33mline 10 stands out\u001b[39m');
    expect(coloured).toContain('\u001b[33m        line 10  90.0°  r 1.99 mm\u001b[39m');
  });

  test('a name cannot steer the terminal', () => {
    expect(sheetText({ ...sheet, name: 'a\u001b[2Jb' }, styleFor(false), 80)).toMatch(/^a·\[2Jb {2}/);
  });
});
