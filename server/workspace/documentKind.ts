/** What a document is to us, whatever its client calls it. */
export type DocumentKind = 'program' | 'profile' | 'setup' | 'other';

export const profileName = 'probewright.json';
const setupEnding = '.setup.json';

/** How such programs are named (common practice, no source); the client's package.json has the same list. */
export const programEndings: readonly string[] = [
  'ngc',
  'nc',
  'tap',
  'cnc',
  'gcode',
  'mpf',
  'spf',
  'gc',
  'g',
  'eia',
  'min',
  'ncc',
  'ncd',
];

/** The text that is looked at where neither name nor language says what it is. */
const glanceLength = 8000;

/**
 * `languageId` may be empty or something of the client's own: the name decides first, then the content.
 * @param start the beginning of the text; more than its first 8000 characters is not looked at
 */
export function documentKind(uri: string, languageId: string, start: string): DocumentKind {
  const name = fileName(uri);
  if (name === profileName) return 'profile';
  if (name.endsWith(setupEnding)) return 'setup';
  const ending = /\.([^.]+)$/.exec(name)?.[1]?.toLowerCase();
  if (languageId === 'gcode' || (ending !== undefined && programEndings.includes(ending))) return 'program';
  if (languageId !== '' && languageId !== 'plaintext') return 'other';
  return looksLikeProgram(start.slice(0, glanceLength)) ? 'program' : 'other';
}

/** Of a text that is no program at all: a character that no text has, near its start. */
export function isBinary(start: string): boolean {
  return start.slice(0, glanceLength).includes('\0');
}

export function fileName(uri: string): string {
  const path = uri.replace(/[?#].*$/, '');
  return decoded(path.slice(path.lastIndexOf('/') + 1));
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

const wordLine =
  /^\s*(\/\d?\s*)?(N\d+\s*)?([A-Z]\s*[-+]?[\d.#[]|#[\d<]|o\d+\s|o<|\(|;|%|IF\s*\[|WHILE\s*\[|GOTO)/i;

function looksLikeProgram(start: string): boolean {
  const lines = start
    .split(/\r\n|\n|\r/)
    .filter((line) => line.trim() !== '')
    .slice(0, 100);
  const words = lines.filter((line) => wordLine.test(line)).length;
  return words > 0 && words >= lines.length * 0.8;
}
