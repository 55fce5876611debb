import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { referenceCases } from './referenceCase.ts';

/** Cases that no test checks a number against, and why. */
const setAside: Readonly<Record<string, string>> = {
  'K-REF': 'nothing is reckoned to 20 °C: temperature enters as a spread about whatever the shop has',
  'PRB-LIT-MAZUR': 'context: heads that tilt the probe, and ours hangs upright, where nothing is to be added',
};

type Case = (typeof referenceCases)[number];

/** Series that a test takes as a whole: its file, the words there that pick them, and which cases they pick. */
const series: readonly { file: string; words: string; picks: (each: Case) => boolean }[] = [
  { file: 'rs274.test.ts', words: '/^RS-C2-n/.test(c.id)', picks: ({ id }) => id.startsWith('RS-C2-n') },
  {
    file: 'rs274.test.ts',
    words: "'expr' in c.inputs && 'value' in c.expected",
    picks: ({ inputs, expected }) => 'expr' in Object(inputs) && 'value' in Object(expected),
  },
  {
    file: 'rs274.test.ts',
    words: "c.quantity === 'G38.2 legality'",
    picks: ({ quantity }) => quantity === 'G38.2 legality',
  },
];

const folder = new URL('..', import.meta.url);
const texts = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.test.ts') && !name.endsWith('everyCase.test.ts'))
  .map((name) => ({ name, text: readFileSync(new URL(name, folder), 'utf8') }));

/** The id itself, or the template that it is made by: `GUM-G2-${nu}` with '16' in a list. */
function claims(text: string, id: string): boolean {
  if (includesWord(text, id)) return true;
  const templates = [...text.matchAll(/`([A-Z][\w.-]*-)\$\{\w+\}`/g)].map((match) => match[1] ?? '');
  return templates.some((stem) => id.startsWith(stem) && includesWord(text, `'${id.slice(stem.length)}'`));
}

function includesWord(text: string, word: string): boolean {
  for (let at = text.indexOf(word); at >= 0; at = text.indexOf(word, at + 1)) {
    const after = text[at + word.length] ?? '';
    const before = text[at - 1] ?? '';
    if (!/[\w-]/.test(before) && !/[\w.-]/.test(after)) return true;
  }
  return false;
}

const isInSeries = (each: Case): boolean =>
  series.some(
    ({ file, words, picks }) =>
      picks(each) && texts.some(({ name, text }) => name.endsWith(file) && text.includes(words)),
  );

describe('every published case is checked by some test, or set aside with a reason', () => {
  const topics = [...new Set(referenceCases.map(({ topic }) => topic))];
  test.each(topics)('%s', (topic) => {
    const unclaimed = referenceCases
      .filter((each) => each.topic === topic && !(each.id in setAside) && !isInSeries(each))
      .map(({ id }) => id)
      .filter((id) => !texts.some(({ text }) => claims(text, id)));
    expect(unclaimed).toEqual([]);
  });

  test('none is set aside that a test checks, and each stands in the collection', () => {
    for (const id of Object.keys(setAside)) {
      expect(referenceCases.map((each) => each.id)).toContain(id);
      expect(texts.filter(({ text }) => claims(text, id)).map(({ name }) => name)).toEqual([]);
    }
  });

  test('an id that nobody names is seen', () => {
    expect(claims("referenceCase('CIR-GEO')", 'CIR-GEO')).toBe(true);
    expect(claims("referenceCase('CIR-GEO-2')", 'CIR-GEO')).toBe(false);
    const made = `for (const nu of ['16']) referenceCase(\`GUM-G2-\${nu}\`)`;
    expect(claims(made, 'GUM-G2-16')).toBe(true);
    expect(claims(made, 'GUM-G2-1')).toBe(false);
  });
});
