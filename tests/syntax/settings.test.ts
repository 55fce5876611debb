import { describe, expect, it } from 'vitest';
import { faults, outline } from './outline.ts';

describe('settings of both dialects', () => {
  it.each([
    ['#1=2', '#1:=2'],
    ['#1 = -#2', '#1:=(- #2)'],
    ['#3=15 #3=6', '#3:=15 #3:=6'],
    ['#3=6 G1 x#3', '#3:=6 G=1 X=#3'],
    ['##1 = 0.375', '#[#1]:=0.375'],
    ['#[#30]=[#2+1]', '#[#30]:=(+ #2 1)'],
    ['#[5201+20*#1]=#5021', '#[(+ 5201 (* 20 #1))]:=#5021'],
    ['#3000=121(text)', '#3000:=121 "text"'],
    ['#1=ABS[#2]', '#1:=(ABS #2)'],
    ['x [2 * 3.0] #1=2.0', 'X=(* 2 3) #1:=2'],
  ])('%s', (line, expected) => {
    for (const dialect of ['rs274ngc', 'macro'] as const) {
      expect(outline(line, dialect)).toBe(expected);
      expect(faults(line, dialect)).toBe('');
    }
  });

  it.each([
    ['g40 g1 #3=15 (foo) #4=-7.0', 'G=40 G=1 #3:=15 "foo" #4:=-7'],
    ['#<edge>=#5061', '#<edge>:=#5061'],
    ['#<_a b>=[1]#<c>=2', '#<_ab>:=1 #<c>:=2'],
  ])('%s in rs274ngc', (line, expected) => {
    expect(outline(line, 'rs274ngc')).toBe(expected);
    expect(faults(line, 'rs274ngc')).toBe('');
  });

  it.each([
    ['#1=#2+#3*2', '#1:=(+ #2 (* #3 2))'],
    ['#1=#2-[#3+1]/2', '#1:=(- #2 (/ (+ #3 1) 2))'],
    ['#100=#5061AND255', '#100:=(AND #5061 255)'],
    ['#1=#2MOD3', '#1:=(MOD #2 3)'],
    ['#1=#2M98P1', '#1:=#2 M=98 P=1'],
    ['#1=-#2*-1', '#1:=(* (- #2) -1)'],
    ['#1=#2 EQ #3', '#1:=(EQ #2 #3)'],
    ['#1=SIN[#2]*COS[#3]', '#1:=(* (SIN #2) (COS #3))'],
    ['#1=5#2=6', '#1:=5 #2:=6'],
  ])('%s needs no brackets in the macro dialect', (line, expected) => {
    expect(outline(line, 'macro')).toBe(expected);
    expect(faults(line, 'macro')).toBe('');
  });

  it.each([
    ['#1=#2+3', 'missing-brackets@3-7'],
    ['#1', 'missing-equals@0-2'],
    ['#1=', 'missing-value@0-3'],
    ['#1= X5', 'missing-value@0-3'],
    ['#1 5', 'missing-equals@0-4'],
    ['#1==2', 'missing-value@0-3 unexpected-character@3-5'],
  ])('%s is a fault in rs274ngc', (line, found) => {
    expect(faults(line, 'rs274ngc')).toBe(found);
  });
});
