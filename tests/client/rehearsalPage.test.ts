import { expect, test } from 'vitest';
import { rehearsalPage } from '../../client/panels/rehearsalPage.ts';
import type { RehearsalView } from '../../server/protocol/requests.ts';

const right = {
  name: 'datum-right',
  grade: 'right',
  meaning: 'Every datum is within its tolerance.',
} as const;
const hit = { name: 'collision', grade: 'bad', meaning: 'Something was hit.' } as const;
const view: RehearsalView = {
  kind: 'rehearsed',
  verdict: 'fail',
  undisturbed: {
    outcome: right,
    line: 11,
    file: null,
    story: 'every expectation is met',
    touches: [
      { line: 4, file: null, code: 'G38.2', direction: 'X+', overtravel: '0.110 mm' },
      { line: 7, file: 'file:///shop/edge%20of.ngc', code: 'G38.3', direction: 'Z−', overtravel: 'no trip' },
    ],
    datums: [{ key: 'G54.x', error: '−4.2 µm' }],
    seconds: 61.2,
    untried: '',
  },
  matrix: {
    outcomes: [hit, right],
    rows: [
      { fault: 'probe-dead', counts: [1, 0] },
      { fault: 'feed-doubled', counts: [0, 1] },
    ],
  },
  runs: [
    { title: 'probe-dead', outcome: hit, line: 4, file: null, story: 'line 5: <no contact>' },
    { title: 'feed-doubled', outcome: right, line: 11, file: null, story: 'every expectation is met' },
  ],
  cautions: ['the probe’s body is not modelled', 'Prove the program above the part first.'],
  restsOn: ['file:///shop/edge%20of.ngc'],
};
const page = rehearsalPage(view, { program: 'a<b>.ngc', setup: 'a.setup.json' }, 'once');

test('the verdict, the datums and the touches are told in words', () => {
  expect(page).toContain(
    '<strong>Fail</strong> Undisturbed: datum-right; 2 runs with a fault, of which 1 went wrong.',
  );
  expect(page).toContain('<th scope="row">G54.x</th><td>−4.2 µm</td>');
  expect(page).toContain('no trip</td>');
  expect(page).toContain(
    'data-line="7" data-file="file:///shop/edge%20of.ngc">line 8 of edge of.ngc</button>',
  );
  expect(page).not.toMatch(/\bsafe/i);
});

test('the matrix has heads on both sides, and a word beside each colour', () => {
  expect(page).toContain('<th scope="col"><span class="bad">collision</span></th>');
  expect(page).toContain('<th scope="row">probe-dead</th><td class="bad">1</td><td class="none">0</td>');
  expect(page).toContain('<dt>collision</dt><dd>Something was hit.</dd>');
  // Where it is too wide for the panel it scrolls, by keys too.
  expect(page).toContain('<div class="wide" role="region" aria-label="Faults by outcome" tabindex="0">');
});

test('runs that did not come out right are told, with a link to the line that decided', () => {
  expect(page).toContain(
    '<strong>probe-dead</strong>: <span class="bad">collision</span>, <button type="button" class="line" data-line="4">line 5</button>',
  );
  expect(page).not.toContain('<strong>feed-doubled</strong>');
});

test('a program that touches nothing is told of, and so is each run that wrote no datum', () => {
  const ended = { name: 'completed', grade: 'right', meaning: 'It came to its end.' } as const;
  const untouched = rehearsalPage(
    {
      ...view,
      undisturbed: {
        ...view.undisturbed,
        outcome: ended,
        touches: [],
        datums: [],
        untried: 'the program made no touch',
      },
      runs: [
        { title: 'part-absent', outcome: ended, line: 2, file: null, story: 'ends without writing G54.x' },
      ],
    },
    { program: 'a.ngc', setup: 'a.setup.json' },
    'once',
  );
  expect(untouched).toContain('The program made no touch.');
  expect(untouched).toContain('Ends without writing G54.x.');
});

test('text of a program is text, and nothing comes from elsewhere', () => {
  expect(page).toContain('a&#60;b&#62;.ngc');
  expect(page).toContain('&#60;no contact&#62;');
  expect(page).toContain("default-src 'none'; style-src 'nonce-once'; script-src 'nonce-once'");
  expect(page).not.toMatch(/https?:|\bstyle="|\bon\w+="/);
});
