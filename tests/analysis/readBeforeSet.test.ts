import { expect, test } from 'vitest';
import { analyse } from '../../server/analysis/analysis.ts';
import { localScopes } from '../../server/analysis/localScopes.ts';
import { readBeforeSet } from '../../server/analysis/readBeforeSet.ts';
import { builtInProfile } from '../../server/profile/profile.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';

function scopesOf(lines: readonly string[]) {
  const source = Source.from(SourceText.from(lines.join('\n')), dialects.rs274ngc);
  const analysis = analyse(source, builtInProfile);
  return { source, scopes: localScopes(analysis) };
}

/** Milliseconds of processor that the least disturbed of three goes took. */
function least(work: () => void): number {
  const times = [1, 2, 3].map(() => {
    const before = process.cpuUsage();
    work();
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  });
  return Math.min(...times);
}

const branches = (count: number) =>
  Array.from({ length: count }, (_, i) => [
    `o${i + 2} if [#<a> GT 1]`,
    `#<b>=${i}`,
    `o${i + 2} endif`,
  ]).flat();

test('takes time by the number of branches, not by its square', () => {
  const time = (count: number) => {
    const { source, scopes } = scopesOf([...branches(count), 'M2']);
    expect(scopes).toHaveLength(1);
    return least(() => {
      for (const scope of scopes) expect(readBeforeSet(scope, source).map(({ name }) => name)).toEqual(['a']);
    });
  };
  // 16 times where it is linear, 256 where it is not.
  expect(time(8000)).toBeLessThan(64 * Math.max(1, time(500)));
});

test('calls are counted once for all subroutines', () => {
  const { scopes } = scopesOf([
    ...Array.from({ length: 300 }, (_, i) => [`o<s${i}> sub`, 'G0 X#1 Y#2', `o<s${i}> endsub`]).flat(),
    ...Array.from({ length: 150 }, (_, i) => `o<s${2 * i}> call [${i}]`),
    'M2',
  ]);
  const called = scopes.filter(({ isCalledHere }) => isCalledHere);
  expect(called.map(({ filled }) => [...(filled ?? [])])).toEqual(Array.from({ length: 150 }, () => ['1']));
  expect(scopes.filter(({ isOpen }) => isOpen)).toHaveLength(150);
});
