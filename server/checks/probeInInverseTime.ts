import type { Touch } from '../analysis/model.ts';
import { measuringFeed } from '../profile/probeOf.ts';
import { literal } from '../syntax/literal.ts';
import { codesIn, wordsOf } from './blockFacts.ts';
import { blocksAfter, replaced, setWord } from './lineEdits.ts';
import { feedWord, knownUnit } from './quantity.ts';
import type { CheckContext, Edit, Fix, Rule } from './rule.ts';
import { callsOf, faultsByBlock } from './touchFaults.ts';

export const probeInInverseTime: Rule = {
  id: 'probe-in-inverse-time',
  severity: 'error',
  title: 'a touch under inverse time feed (G93)',
  what: 'G93 is in force at this touch on some path.',
  why: 'RS274/NGC raises an error. Elsewhere F is one over the minutes for the whole travel, so that the feed depends on how far the touch is programmed to go: nobody knows how fast the probe meets the surface.',
  instead: 'G94 and a feed per minute for the touch; G93 again after it where the program needs it.',
  source: 'NISTIR 6556, 3.5.9.1 and 3.5.19',
  fails: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G93
G0 X0 Y0
G38.2 Z-10 F4
G0 Z5
M2
`,
    },
    {
      dialect: 'macro',
      program: `G21 G90 G94
G0 Z5.
IF[#101EQ0]GOTO3
G93
N3 G31 Z-10. F4.
G0 Z5.
M30
`,
    },
  ],
  passes: [
    {
      dialect: 'rs274ngc',
      program: `G21 G90 G93
G1 X5 F10
G94
G38.2 Z-10 F40
G0 Z5
M2
`,
    },
  ],
  *check(context) {
    const { analysis } = context;
    const inverse = analysis.touches.filter(({ modes }) => modes.feedMode.includes('G93'));
    for (const fault of faultsByBlock(inverse))
      yield {
        message:
          'G93 is in force at this touch: RS274/NGC raises an error, and elsewhere the feed depends on the programmed travel.',
        place: fault.touch.place,
        related: callsOf(fault, analysis.source),
        fixes: perMinuteFix(fault.touch, context),
      };
  },
};

/** G94 and the measuring feed in the touch's block, and G93 again behind it. */
function perMinuteFix(touch: Touch, { analysis, profile }: CheckContext): Fix[] {
  const { source } = analysis;
  const unit = knownUnit(touch.modes);
  const block = source.block(touch.line);
  const own = wordsOf(block).find(({ letter }) => letter === 'F');
  if (unit === null || touch.modes.feedMode.length !== 1 || (own && literal(own.value) === null)) return [];
  const word = feedWord(measuringFeed(profile) ?? profile.feeds.measuring, unit, source.dialect.name);
  const inverse = codesIn(block).find(({ code }) => code === 'G93');
  const perMinute: Edit = inverse
    ? replaced(touch.line, inverse.word, 'G94')
    : {
        line: touch.line,
        start: touch.place.start,
        endLine: touch.line,
        end: touch.place.start,
        text: 'G94 ',
      };
  return [
    {
      title: `Touch under G94 with ${word}, and G93 again after it`,
      edits: [perMinute, setWord(block, touch.line, word), blocksAfter(source, touch.line, ['G93'])],
      changesMotion: true,
    },
  ];
}
