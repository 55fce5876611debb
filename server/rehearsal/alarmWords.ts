/** Why a control stops at what a block asks for; other faults of the interpreter are said by their name. */
const words: Readonly<Record<string, string>> = {
  'division-by-zero': 'a division by zero',
  'root-of-negative': 'the square root of a negative number',
  'logarithm-of-nonpositive': 'the logarithm of a number that is not positive',
  'inverse-out-of-range': 'an angle asked for of a number beyond -1 to 1',
  'negative-base': 'a negative number to a broken power',
  'not-finite': 'a number too large to be computed',
  'machine-coordinates-without-straight-move': 'G53 in a block that is no G0 or G1',
  'parameter-index': 'a parameter number that there is not',
};

export function alarmWords(code: string): string {
  return words[code] ?? code.replaceAll('-', ' ');
}
