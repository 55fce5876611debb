import type { Position, SignatureHelp, SignatureInformation } from 'vscode-languageserver';
import type { Source } from '../syntax/source.ts';
import type { FunctionName } from '../syntax/tree.ts';
import type { Program } from '../workspace/program.ts';
import { codesOfBlock } from './blockCodes.ts';
import { argumentsOfCall, type CallArgument } from './callArguments.ts';
import { functionMeanings } from './functionMeanings.ts';
import { lettersOfCode } from './letters.ts';
import { macroCallOf } from './macroCall.ts';

/** Longer lines are no program's; their brackets are not counted at each key. */
const longestLine = 10_000;

/** What the call, the function or the code that the caret is in takes next. */
export function signatureHelp(program: Program, { line, character }: Position): SignatureHelp | null {
  const { source } = program;
  if (line < 0 || line >= source.lineCount) return null;
  const before = source.text.line(line).slice(0, character);
  if (before.length > longestLine || isInComment(before)) return null;
  return (
    ofFunction(before, source) ??
    ofOWordCall(before, program) ??
    ofMacroCall(before, line, program) ??
    ofCode(before, line, source)
  );
}

/** Inside the brackets of a function. */
function ofFunction(before: string, source: Source): SignatureHelp | null {
  const open = openBrackets(before);
  for (const at of open.reverse()) {
    const second = /ATAN\s*\[.*\]\s*\/\s*$/i.test(before.slice(0, at));
    const name = second ? 'ATAN' : /([A-Z]+)\s*$/i.exec(before.slice(0, at))?.[1]?.toUpperCase();
    if (name === undefined || !source.dialect.functions.includes(name as FunctionName)) continue;
    const meaning = functionMeanings[name as FunctionName];
    const active = second || (name === 'POW' && before.slice(at).includes(',')) ? 1 : 0;
    return help(
      signature(
        meaning.form,
        meaning.arguments.map((label) => ({ label })),
        meaning.title,
      ),
      active,
    );
  }
  return null;
}

/** Behind `o… call`: one bracket for each argument. */
function ofOWordCall(before: string, program: Program): SignatureHelp | null {
  if (!program.source.dialect.oWords) return null;
  const found = /^[\s/\d]*(?:n\d+\s*)?o\s*(?:<([^>]*)>|(\d+))\s*call\b(.*)$/i.exec(before);
  if (!found) return null;
  const name = found[1]?.toLowerCase().replace(/\s/g, '') ?? String(Number(found[2]));
  const known = argumentsOfCall(program, name);
  if (!known) return null;
  const label = /^\d/.test(name) ? `o${name}` : `o<${name}>`;
  const parameters = known.map((each) => ({ label: `[${worded(each)}]`, documentation: each.use }));
  const form = [`${label} call`, ...parameters.map((each) => each.label)].join(' ');
  const rest = found[3] ?? '';
  const closed = topBrackets(rest);
  return help(signature(form, parameters, known.length === 0 ? 'It takes no arguments.' : ''), closed);
}

/** G65 P… and its kin: letters that arrive in numbered parameters. */
function ofMacroCall(before: string, line: number, program: Program): SignatureHelp | null {
  const call = macroCallOf(program.source.block(line), program.source.dialect);
  if (!call?.handsOn || call.program === null) return null;
  const known = argumentsOfCall(program, call.program);
  if (!known) return null;
  const parameters = known.map((each) => ({
    label: `${each.letter} ${worded(each)}`,
    documentation: each.use,
  }));
  const form = [`${call.code} P${call.program}`, ...parameters.map(({ label }) => label)].join('  ');
  const letter = lastLetter(before);
  return help(
    signature(form, parameters, known.length === 0 ? 'It takes no arguments.' : ''),
    known.findIndex((each) => each.letter === letter),
  );
}

/** The words that G10, G92, an arc, a cycle … take, where their meaning hangs on the code. */
function ofCode(before: string, line: number, source: Source): SignatureHelp | null {
  const dialect = source.dialect.name;
  for (const code of codesOfBlock(source.block(line))) {
    const rows = lettersOfCode(code, dialect);
    if (rows.length === 0) continue;
    const parameters = rows.map(({ letters, title }) => ({
      label: letters.join(' '),
      documentation: title,
    }));
    const form = [code, ...parameters.map(({ label }) => label)].join('  ');
    const letter = lastLetter(before);
    const active = rows.findIndex(({ letters }) => letter !== null && letters.includes(letter));
    return help(
      signature(
        form,
        parameters,
        rows.map(({ letters, title }) => `${letters.join('')}: ${title}`).join('\n'),
      ),
      active,
    );
  }
  return null;
}

function worded({ number, name }: CallArgument): string {
  return name === null ? `#${number}` : `#${number} ${name}`;
}

/** Parameters by their places in the label, in the order they stand there. */
function signature(
  label: string,
  parameters: readonly { readonly label: string; readonly documentation?: string }[],
  documentation: string,
): SignatureInformation {
  let from = 0;
  return {
    label,
    ...(documentation === '' ? {} : { documentation }),
    parameters: parameters.map((each) => {
      const start = label.indexOf(each.label, from);
      from = start + each.label.length;
      return { ...each, label: [start, from] };
    }),
  };
}

/** An active parameter that the signature does not have shows as none. */
function help(only: SignatureInformation, active: number): SignatureHelp {
  const count = only.parameters?.length ?? 0;
  return { signatures: [only], activeSignature: 0, activeParameter: active < 0 ? count : active };
}

/** Where the brackets open that are not closed before the caret, from the outside in. */
function openBrackets(before: string): number[] {
  const open: number[] = [];
  for (let at = 0; at < before.length; at++) {
    if (before[at] === '[') open.push(at);
    else if (before[at] === ']') open.pop();
  }
  return open;
}

/** Brackets closed at the top level of a text. */
function topBrackets(text: string): number {
  let depth = 0;
  let closed = 0;
  for (const character of text) {
    if (character === '[') depth++;
    else if (character === ']' && --depth === 0) closed++;
  }
  return closed;
}

function lastLetter(before: string): string | null {
  return /([A-Za-z])[^A-Za-z]*$/.exec(before)?.[1]?.toUpperCase() ?? null;
}

function isInComment(before: string): boolean {
  const bare = before.replace(/\([^)]*\)/g, '');
  return bare.includes('(') || bare.includes(';');
}
