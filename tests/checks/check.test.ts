import { describe, expect, it } from 'vitest';
import { applied, checkText, told } from './marked.ts';

const faulty = `M3 S100
G38.2 Z-10
G0 X5 X6
M2
`;

describe('check', () => {
  it('gives the findings in the order of the text', () => {
    expect(checkText(faulty, { dialect: 'rs274ngc' }).findings.map(({ rule }) => rule)).toEqual([
      'mode-assumed',
      'no-retract-after-trip',
      'probe-feed-unset',
      'probe-with-spindle-running',
      'repeated-word',
    ]);
  });

  it('takes severities from the profile, and leaves out what it turns off', () => {
    const profile = JSON.stringify({
      rules: { 'mode-assumed': 'error', 'probe-feed-unset': 'info', 'repeated-word': 'off' },
    });
    const { findings } = checkText(faulty, { dialect: 'rs274ngc', profile });
    const severities = new Map(findings.map(({ rule, severity }) => [rule, severity]));
    expect(severities.get('mode-assumed')).toBe('error');
    expect(severities.get('probe-feed-unset')).toBe('info');
    expect(severities.get('probe-with-spindle-running')).toBe('error');
    expect(severities.has('repeated-word')).toBe(false);
  });

  it('tells a touch that several calls reach once, with the calls beside it', () => {
    const text = `G21 G91 G94
o<down> sub
  G38.2 Z-10
  G0 Z5
o<down> endsub
o<down> call
o<down> call
M2
`;
    const { findings } = checkText(text, { dialect: 'rs274ngc' });
    expect(told(findings)).toEqual(['3 probe-feed-unset']);
    expect(findings[0]?.related.map(({ place }) => place.line + 1)).toEqual([6, 7]);
  });

  it('settles when fixes are applied one after the other', () => {
    let text = faulty;
    let rounds = 0;
    for (; rounds < 20; rounds++) {
      const fix = checkText(text, { dialect: 'rs274ngc' }).findings.flatMap(({ fixes }) => fixes)[0];
      if (!fix) break;
      text = applied(text, fix.edits);
    }
    expect(rounds).toBeLessThan(10);
    expect(told(checkText(text, { dialect: 'rs274ngc' }).findings)).toEqual([]);
    expect(text).toBe('G21 G90 G94\nM3 S100\nM5\nG38.2 Z-10 F40\nG91 G0 Z1\nG90\nG0 X5\nM2\n');
  });

  it('has nothing to say about nothing', () => {
    for (const text of ['', '\n', '%\n%\n', '\uFEFF', ';'])
      expect(checkText(text, { dialect: 'rs274ngc' })).toEqual({ findings: [], suppressed: 0 });
  });
});
