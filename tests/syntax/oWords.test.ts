import { describe, expect, it } from 'vitest';
import { dialects } from '../../server/syntax/dialects.ts';
import { parseBlock } from '../../server/syntax/parseBlock.ts';
import { faults, outline } from './outline.ts';

describe('O-words (common practice, no source)', () => {
  it.each([
    ['o100 sub', 'o:100 sub'],
    ['O100 endsub', 'o:100 endsub'],
    ['o0100 endsub [#1+1]', 'o:100 endsub (+ #1 1)'],
    ['o<probe_x> call [1] [2]', 'o:probe_x call 1 2'],
    ['o<a> call[1][2]', 'o:a call 1 2'],
    ['o<Probe X.1> sub', 'o:probex.1 sub'],
    ['o#1 call [2]', 'o:#1 call 2'],
    ['o[#1+10] call', 'o:(+ #1 10) call'],
    ['o100 if[#5070 EQ 0]', 'o:100 if (EQ #5070 0)'],
    ['o100if[1]', 'o:100 if 1'],
    ['o 1 0 0 i f [1]', 'o:100 if 1'],
    ['o100 elseif [#1]', 'o:100 elseif #1'],
    ['o100 else', 'o:100 else'],
    ['o100 endif (done)', 'o:100 endif "done"'],
    ['o1 while [#1 lt 5]', 'o:1 while (LT #1 5)'],
    ['o1 endwhile', 'o:1 endwhile'],
    ['o1 do', 'o:1 do'],
    ['o1 repeat [4]', 'o:1 repeat 4'],
    ['o1 endrepeat', 'o:1 endrepeat'],
    ['o1 break', 'o:1 break'],
    ['o1 continue ; next', 'o:1 continue ;" next"'],
    ['o1 return', 'o:1 return'],
    ['o1 return [#2]', 'o:1 return #2'],
    ['N10 o1 return', 'N10 o:1 return'],
    ['/o1 call', '/ o:1 call'],
  ])('%s', (line, expected) => {
    expect(outline(line, 'rs274ngc')).toBe(expected);
    expect(faults(line, 'rs274ngc')).toBe('');
  });

  it.each([
    ['o100', 'stray', 'program-number@0-4'],
    ['O1000(PART)', 'stray "PART"', 'program-number@0-5'],
    ['o1 if #1 GT 0]', 'o:1 if (GT #1 0)', 'missing-brackets@6-14'],
    ['o1 while #1 LT 5 (c)', 'o:1 while (LT #1 5) "c"', 'missing-brackets@9-16'],
    ['o100 foo [1] (c)', 'stray "c"', 'unknown-keyword@0-12'],
    ['o100 end sub2', 'o:100 endsub stray', 'unexpected-character@12-13'],
    ['o sub', 'o:? sub', 'missing-label@0-1'],
    ['of this', 'stray stray', 'unknown-keyword@0-2'],
    ['o<a sub', 'stray', 'unclosed-name@0-7'],
    ['o100 if', 'o:100 if', 'missing-condition@5-7'],
    ['o100 if #1 EQ 0', 'o:100 if (EQ #1 0)', 'missing-brackets@8-15'],
    ['o100 while [#1] EQ 0', 'o:100 while (EQ #1 0)', 'missing-brackets@11-20'],
    ['o100 call 1 2', 'o:100 call stray', 'missing-brackets@10-13'],
    ['o100 call #1 (c)', 'o:100 call stray "c"', 'missing-brackets@10-12'],
    ['o100 repeat', 'o:100 repeat', 'missing-condition@5-11'],
  ])('%s has a fault', (line, expected, found) => {
    expect(outline(line, 'rs274ngc')).toBe(expected);
    expect(faults(line, 'rs274ngc')).toBe(found);
  });

  it('has spans for label and keyword', () => {
    const [flow] = parseBlock(' o<a> call [1] ', dialects.rs274ngc).items;
    expect(flow).toMatchObject({
      start: 1,
      end: 14,
      labelSpan: { start: 1, end: 5 },
      keywordSpan: { start: 6, end: 10 },
    });
  });
});
