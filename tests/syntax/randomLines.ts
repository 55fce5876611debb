import fc from 'fast-check';

const blank = fc.constantFrom('', '', '', ' ', '\t', '  ');
const number = fc.oneof(
  fc.integer({ min: -99999, max: 99999 }).map(String),
  fc.constantFrom(
    '1.5',
    '-.5',
    '+25',
    '5.',
    '0.',
    '007.50',
    '-0',
    '38.2',
    '1 2',
    '1. 5',
    '12345678901234567890.5',
  ),
);
const parameter = fc.constantFrom('#1', '##2', '#[#30]', '#<_x>', '#<A b>', '#5061', '#0', '#[1+2]');

const { expression } = fc.letrec<{ expression: string; value: string }>((tie) => ({
  value: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    number,
    parameter,
    fc
      .tuple(fc.constantFrom('SIN', 'fix', 'ABS', 'A T A N', 'round'), tie('expression'))
      .map((parts) => parts.join('')),
    tie('expression'),
    fc.tuple(fc.constantFrom('-', '+'), tie('expression')).map((parts) => parts.join('')),
  ),
  expression: fc
    .array(
      fc.tuple(tie('value'), fc.constantFrom('+', '-', '*', '/', '**', 'MOD', ' and ', 'OR', 'EQ', 'lt')),
      {
        minLength: 1,
        maxLength: 3,
      },
    )
    .map((parts) => `[${parts.flat().slice(0, -1).join('')}]`),
}));

const value = fc.oneof(number, parameter, expression);

/** Parts that real lines are made of, in both dialects, right and wrong ones. */
const part = fc.oneof(
  fc.tuple(fc.constantFrom(...'GXYZABCUVWFSTMDHIJKLPQRENgxo@^'), blank, value).map((parts) => parts.join('')),
  fc.tuple(parameter, blank, fc.constantFrom('=', ''), blank, value).map((parts) => parts.join('')),
  fc.constantFrom(
    '(a)',
    '()',
    '(a (b) c)',
    '(open',
    ';',
    '; a)',
    '%',
    '/',
    '/2',
    ',R2',
    'N10',
    'N',
    '[',
    ']',
    ')',
    '$',
  ),
  fc.constantFrom(
    'o100 sub',
    'o<a> call',
    'O0020',
    'o#1 if',
    'o endwhile',
    'o100 foo',
    'GOTO',
    'IF',
    'THEN',
    'WHILE',
  ),
  fc.constantFrom(
    'DO1',
    'END1',
    'DPRNT[X#1[53]]',
    'POPEN',
    'é',
    '𝛑',
    '\ufeff',
    '\x1a',
    '\0',
    'WORDS',
    '"',
    '{',
    '<',
    '>',
  ),
);

/** Lines made of such parts, glued together or with blanks between. */
export const randomLine = fc
  .array(fc.tuple(part, blank), { maxLength: 6 })
  .map((parts) => parts.flat().join(''));

/** An expression in brackets that both dialects have every form of, but for `**` and names. */
export const randomExpression = expression;

const comment = fc.constantFrom(
  ...[
    '',
    '',
    '',
    '',
    '',
    '',
    '',
    '(pass 1)',
    '(Gr\u00f6\u00dfe)',
    '(a (b)',
    '(MSG, x)',
    '(see #5061)',
    '(print',
  ],
);

/** Lines that are mostly plain. */
export const randomPlainLine = fc
  .tuple(
    fc.array(fc.tuple(fc.constantFrom(...'NGXYZABCIJKRFSgx@'), blank, number, blank, comment), {
      maxLength: 6,
    }),
    fc.constantFrom('', '', '', ';', '; to the end (of it', '; probewright: allow syntax - x'),
  )
  .map((parts) => parts.flat(2).join(''));
