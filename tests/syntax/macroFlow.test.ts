import { describe, expect, it } from 'vitest';
import { faults, outline } from './outline.ts';

describe('macro flow (common practice, no source)', () => {
  it.each([
    ['IF[#1EQ#0]GOTO10', 'if (EQ #1 #0) goto 10'],
    ['if [ #1 gt 2.5 ] goto #5', 'if (GT #1 2.5) goto #5'],
    ['IF[[#1EQ1]OR[#2EQ2]]GOTO[#3+1]', 'if (OR (EQ #1 1) (EQ #2 2)) goto (+ #3 1)'],
    ['IF[#656NE50]GOTO 99 (other probe)', 'if (NE #656 50) goto 99 "other probe"'],
    ['IF[#1EQ#0](unset)GOTO10', 'if (EQ #1 #0) goto 10'],
    ['I F [#1] G O T O 1 0', 'if #1 goto 10'],
    ['IF[#1LT0]THEN#1=2', 'if (LT #1 0) then #1:=2'],
    ['IF [#1 LT 0] THEN #1 = -#1+2', 'if (LT #1 0) then #1:=(+ (- #1) 2)'],
    ['IF[#1EQ1]THEN#3000=1(no contact)', 'if (EQ #1 1) then #3000:=1 "no contact"'],
    ['IF[#1LT0]THEN GOTO10', 'if (LT #1 0) goto 10'],
    ['if [#1 eq 0] then goto #5', 'if (EQ #1 0) goto #5'],
    ['IF[#1EQ1]THEN(b)GOTO5', 'if (EQ #1 1) goto 5'],
    ['GOTO1', 'goto 1'],
    ['GOTO#5', 'goto #5'],
    ['N10 GOTO 5', 'N10 goto 5'],
    ['/GOTO5', '/ goto 5'],
    ['WHILE[#1LT5]DO1', 'while (LT #1 5) do 1'],
    ['while [#1 le 5] (each) do 2', 'while (LE #1 5) do 2'],
    ['DO3', 'do 3'],
    ['END1(text)', 'end 1 "text"'],
    ['N5END1', 'N5 end 1'],
    ['G65 P9810 Z-5. F1000', 'G=65 P=9810 Z=-5 F=1000'],
    ['M98 P1000 L2', 'M=98 P=1000 L=2'],
    ['M99', 'M=99'],
    ['G31 Z-[#1+2] F#9', 'G=31 Z=(- (+ #1 2)) F=#9'],
    ['POPEN', 'POPEN'],
    ['DPRNT[X#100[53]*Y#[#1][53]]', 'DPRNT #100 #[#1]'],
    ['DPRNT[CENTRE*FOUND] (log)', 'DPRNT "log"'],
    ['PCLOS', 'PCLOS'],
  ])('%s', (line, expected) => {
    expect(outline(line, 'macro')).toBe(expected);
    expect(faults(line, 'macro')).toBe('');
  });

  it.each([
    ['IF GOTO 10', 'if ? goto 10', 'missing-condition@0-2'],
    ['IF [#1 EQ 0]', 'if (EQ #1 0) then ?', 'missing-statement@0-12'],
    ['IF [#1 EQ 0] THEN', 'if (EQ #1 0) then ?', 'missing-statement@0-17'],
    ['IF [#1 EQ 0] GOTO', 'if (EQ #1 0) goto ?', 'missing-target@13-17'],
    ['IF #1 EQ 0 GOTO 10', 'if (EQ #1 0) goto 10', 'missing-brackets@3-10'],
    ['IF #1 EQ 0] GOTO 10', 'if (EQ #1 0) goto 10', 'missing-brackets@3-11'],
    ['WHILE #1 LT 5] DO1', 'while (LT #1 5) do 1', 'missing-brackets@6-14'],
    ['IF [#1 EQ 0] THEN GOTO', 'if (EQ #1 0) goto ?', 'missing-target@18-22'],
    ['GOTO', 'goto ?', 'missing-target@0-4'],
    ['WHILE [#1 LT 5]', 'while (LT #1 5) do ?', 'missing-statement@0-15'],
    ['WHILE [#1 LT 5] DO', 'while (LT #1 5) do ?', 'missing-target@16-18'],
    ['END', 'end ?', 'missing-target@0-3'],
    ['ELSE', 'stray', 'unknown-keyword@0-4'],
    ['DPRNT[X#100[53]', 'DPRNT #100', 'unclosed-bracket@5-15'],
  ])('%s has a fault', (line, expected, found) => {
    expect(outline(line, 'macro')).toBe(expected);
    expect(faults(line, 'macro')).toBe(found);
  });
});
