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

/** By the square of them, it took a minute on a machine where it takes some tenths of a second. */
test('30,000 branches are no matter of minutes', { timeout: 60_000 }, () => {
  const branches = Array.from({ length: 30_000 }, (_, i) => [
    `o${i + 2} if [#<a> GT 1]`,
    `#<b>=${i}`,
    `o${i + 2} endif`,
  ]);
  const { source, scopes } = scopesOf([...branches.flat(), 'M2']);
  expect(scopes.map((scope) => readBeforeSet(scope, source).map(({ name }) => name))).toEqual([['a']]);
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
