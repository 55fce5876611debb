import { describe, expect, test } from 'vitest';
import { pictures } from '../../report/samplePictures.ts';
import { pageAround, readingPages } from './readThrough.ts';

const read = readingPages();

describe.each(['dark', 'light'] as const)('in the %s theme', (theme) => {
  test.each(Object.entries(pictures))('%s has a name and can be read', async (_, svg) => {
    expect(await read(pageAround(svg), theme)).toEqual([]);
  });
});
