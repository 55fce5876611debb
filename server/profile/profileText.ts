import { type Node, type ParseError, parseTree, printParseErrorCode, stripComments } from 'jsonc-parser';
import { lineStarts, positionOf } from './textPosition.ts';

/** What is wrong and where: UTF-16 offsets in the text. `key` is the full key, '' for the file as a whole. */
export interface TextProblem {
  readonly key: string;
  readonly message: string;
  readonly offset: number;
  readonly length: number;
}

export type ParsedText =
  | { readonly root: Node; readonly value: unknown; readonly problems: readonly [] }
  | { readonly root: null; readonly problems: readonly TextProblem[] };

const mostCharacters = 1_000_000;
const deepestNesting = 40;
const mostProblems = 20;
const kinds: Readonly<Record<string, string>> = {
  InvalidSymbol: 'this is no JSON value: texts stand in double quotes',
  InvalidNumberFormat: 'this is no number of JSON',
  PropertyNameExpected: 'a key in double quotes is expected here',
  ValueExpected: 'a value is expected here',
  ColonExpected: 'a colon is expected here',
  CommaExpected: 'a comma is expected here',
  CloseBraceExpected: 'a closing } is expected here',
  CloseBracketExpected: 'a closing ] is expected here',
  EndOfFileExpected: 'the file ends before this',
  UnexpectedEndOfComment: 'this comment does not end',
  UnexpectedEndOfString: 'this text does not end on its line',
};

/**
 * JSON with comments and trailing commas to a tree and its plain value; `kind` names what it should be. An empty file is an empty object; anything
 * that is no JSON text of sensible size gives problems, never an exception.
 */
export function parseProfileText(text: string, kind = 'probe profile'): ParsedText {
  const refusal = refusalOf(text, kind);
  if (refusal !== null) return { root: null, problems: [refusal] };
  const errors: ParseError[] = [];
  // A byte order mark is no white space to the parser; a blank keeps the offsets.
  const plain = text.startsWith('\uFEFF') ? ` ${text.slice(1)}` : text;
  const root = parseTree(stripComments(plain).trim() === '' ? '{}' : plain, errors, {
    allowTrailingComma: true,
  });
  if (errors.length > 0) return { root: null, problems: syntaxProblems(plain, errors) };
  if (root === undefined) throw new Error('A text that parses has a value.');
  const repeated = repeatedKeys(root, '');
  if (repeated.length > 0) return { root: null, problems: repeated };
  return { root, value: plainValue(root), problems: [] };
}

/** The full key of a node's path: `probe.calibration.harmonics[0].order`. */
export function keyOf(path: readonly PropertyKey[]): string {
  let key = '';
  for (const part of path) {
    if (typeof part === 'number') key += `[${part}]`;
    else key += key === '' ? String(part) : `.${String(part)}`;
  }
  return key;
}

function refusalOf(text: string, kind: string): TextProblem | null {
  const refuse = (message: string): TextProblem => ({ key: '', message, offset: 0, length: 0 });
  if (text.length > mostCharacters)
    return refuse(
      `This is no ${kind}: it has ${text.length} characters, and ${mostCharacters} are the most.`,
    );
  if (/[\0-\x08\x0E-\x1F\uFFFD]/.test(text))
    return refuse(`This is no ${kind}: it holds bytes that are not text (UTF-8).`);
  if (nestsTooDeep(text)) return refuse(`This is no ${kind}: it nests deeper than ${deepestNesting} levels.`);
  return null;
}

function nestsTooDeep(text: string): boolean {
  let depth = 0;
  for (const character of text) {
    if (character === '{' || character === '[') depth += 1;
    else if (character === '}' || character === ']') depth -= 1;
    if (depth > deepestNesting) return true;
  }
  return false;
}

/** The first fault of each line: the parser trips over the rest of a line that it no longer understands. */
function syntaxProblems(text: string, errors: readonly ParseError[]): TextProblem[] {
  const starts = lineStarts(text);
  const lines = errors.map(({ offset }) => positionOf(offset, starts).line);
  const firsts = errors.filter((_, index) => lines[index] !== lines[index - 1]);
  return firsts.slice(0, mostProblems).map(({ error, offset, length }) => {
    const code = printParseErrorCode(error);
    return { key: '', message: `Not JSON: ${kinds[code] ?? code}.`, offset, length };
  });
}

function repeatedKeys(node: Node, key: string): TextProblem[] {
  const problems: TextProblem[] = [];
  const seen = new Set<string>();
  for (const [index, child] of (node.children ?? []).entries()) {
    const [name, value] = node.type === 'object' ? (child.children ?? []) : [undefined, child];
    const own =
      name === undefined ? `${key}[${index}]` : keyOf(key === '' ? [name.value] : [key, name.value]);
    if (name !== undefined && seen.has(name.value))
      problems.push({ key: own, message: `${own} stands twice.`, offset: name.offset, length: name.length });
    if (name !== undefined) seen.add(name.value);
    if (value !== undefined) problems.push(...repeatedKeys(value, own));
  }
  return problems;
}

/** The plain value; every key, also `__proto__`, becomes an own property. */
function plainValue(node: Node): unknown {
  if (node.type === 'array') return (node.children ?? []).map(plainValue);
  if (node.type !== 'object') return node.value;
  const entries = (node.children ?? []).map(({ children = [] }): [string, unknown] => {
    const [name, value] = children;
    return [name?.value, value === undefined ? null : plainValue(value)];
  });
  return Object.fromEntries(entries);
}
