import { describe, expect, test } from 'vitest';
import { analyse } from '../../server/analysis/analysis.ts';
import { builtInProfile } from '../../server/profile/profile.ts';
import { dialects } from '../../server/syntax/dialects.ts';
import { Source } from '../../server/syntax/source.ts';
import { SourceText } from '../../server/syntax/sourceText.ts';

/** Each label touches, keeps the result, and jumps to where a parameter says. */
function jumping(labels: number): string {
  const blocks = Array.from(
    { length: labels },
    (_, i) => `N${i + 1} G31 Z-${i + 1}. F50.\n#${i + 100}=#5063\nGOTO#${i + 1}\n`,
  );
  return `G21 G90 G94\n${blocks.join('')}M30\n`;
}

function analysed(text: string) {
  const start = process.cpuUsage();
  const source = Source.from(SourceText.from(text), dialects.macro);
  const { touches, notKnown } = analyse(source, builtInProfile);
  const { user, system } = process.cpuUsage(start);
  return { touches: touches.length, notKnown, seconds: (user + system) / 1e6 };
}

describe('jumps to a computed label', () => {
  test('a few are followed to every label', () => {
    const { touches, notKnown } = analysed(jumping(6));
    expect(touches).toBe(6);
    expect(notKnown).toEqual([]);
  });

  test('one among many labels is followed to all of them', () => {
    const places = Array.from({ length: 40 }, (_, i) => `N${i + 1} G31 Z-${i + 1}. F50.\nG0 Z5.\n`);
    const { touches, notKnown } = analysed(`G21 G90 G94\nGOTO#1\n${places.join('')}M30\n`);
    expect(touches).toBe(40);
    expect(notKnown).toEqual([]);
  });

  test.each([20, 400])(
    '%i among as many labels end soon, and it is said that they are not followed',
    (labels) => {
      const { notKnown, seconds } = analysed(jumping(labels));
      expect(notKnown.map(({ reason }) => reason)).toContain(
        'computed GOTOs among too many labels: not followed',
      );
      expect(seconds).toBeLessThan(3);
    },
  );
});
