import { codeName } from '../program/codes.ts';
import { parameterMeaning } from '../program/parameterMeaning.ts';
import { isLocal } from '../program/parameters.ts';
import type { Dialect, DialectName } from '../syntax/dialect.ts';
import { readDirective } from '../syntax/directives.ts';
import { readMessage } from '../syntax/messages.ts';
import type {
  Block,
  Comment,
  Expression,
  Flow,
  Item,
  OWordFlow,
  ParameterExpression,
  Span,
  Word,
} from '../syntax/tree.ts';
import { bareSpan } from './bareSpan.ts';
import { type MacroCall, macroCallOf } from './macroCall.ts';
import { parameterName } from './parameterName.ts';
import type { TokenModifier, TokenType } from './tokenLegend.ts';

export interface Token extends Span {
  readonly type: TokenType;
  readonly modifiers: readonly TokenModifier[];
}

/** Of a call the name alone is coloured; where it stands shows in the text. */
interface Found extends Token {
  readonly isCall?: true;
}

/** A grammar in the editor colours letters and numbers: then only what it can't know is told. */
export type TokenAmount = 'meaning' | 'everything';

/** What the words of a block are, in order and without overlap. */
export function blockTokens(block: Block, dialect: Dialect, amount: TokenAmount): Token[] {
  const found = [...tokensOf(block, dialect, amount)].map((each) => placed(each, block.text));
  if (amount === 'everything' && block.lineNumber) found.push(token('label', block.lineNumber));
  found.sort((a, b) => a.start - b.start);
  let end = 0;
  return found.filter((each) => {
    const free = each.start >= end && each.end > each.start;
    if (free) end = each.end;
    return free;
  });
}

function placed({ isCall, ...found }: Found, text: string): Token {
  const span = bareSpan(found, text);
  if (!isCall) return { ...found, ...span };
  const open = text.indexOf('[', span.start);
  return { ...found, start: span.start, end: open < 0 ? span.end : Math.min(open, span.end) };
}

function* tokensOf(block: Block, dialect: Dialect, amount: TokenAmount): Iterable<Found> {
  const call = macroCallOf(block, dialect);
  for (const item of block.items) {
    if (item.kind === 'comment') yield* commentTokens(block, item, dialect, amount);
    else if (item.kind === 'word') yield* wordTokens(item, call, dialect, amount);
    else yield* itemTokens(block, item, dialect, amount);
  }
}

function token(type: TokenType, { start, end }: Span, ...modifiers: TokenModifier[]): Found {
  return { type, start, end, modifiers };
}

function codeOfWord({ letter, value }: Word): string | null {
  if ((letter !== 'G' && letter !== 'M') || value.kind !== 'number') return null;
  return codeName(letter, value.value);
}

function* wordTokens(
  word: Word,
  call: MacroCall | null,
  { name: dialect }: Dialect,
  amount: TokenAmount,
): Iterable<Found> {
  const letter = { start: word.start, end: word.start + word.letter.length };
  if (word.letter === 'O') yield token('function', word, 'definition');
  else if (call !== null && word.letter === 'P' && word.value.kind === 'number')
    yield token('function', word);
  else if (word.letter === 'G' || word.letter === 'M') yield* codeTokens(word, dialect, amount);
  else {
    if (call?.handsOn && word.letter !== 'L' && word.letter !== 'P') yield token('parameter', letter);
    else if (amount === 'everything') yield token('property', letter);
    yield* valueTokens(word.value, dialect, amount);
  }
}

function* codeTokens(word: Word, dialect: DialectName, amount: TokenAmount): Iterable<Found> {
  if (word.value.kind !== 'number') yield* valueTokens(word.value, dialect, amount);
  else if (isTouchCode(codeOfWord(word), dialect)) yield token('event', word);
  else if (amount === 'everything') yield token('keyword', word);
}

export function isTouchCode(code: string | null, dialect: DialectName): boolean {
  return code !== null && (dialect === 'macro' ? code === 'G31' : /^G38\.[2-5]$/.test(code));
}

function* itemTokens(
  block: Block,
  item: Exclude<Item, Comment | Word>,
  { name: dialect }: Dialect,
  amount: TokenAmount,
): Iterable<Found> {
  switch (item.kind) {
    case 'setting':
      yield* parameterTokens(item.target, dialect, amount, 'modification');
      yield* valueTokens(item.value, dialect, amount);
      break;
    case 'output':
      if (amount === 'everything')
        yield token('keyword', { start: item.start, end: item.start + item.command.length });
      for (const parameter of item.parameters) yield* parameterTokens(parameter, dialect, amount);
      break;
    case 'flow':
      yield* flowTokens(block, item, dialect, amount);
      break;
    case 'percent':
      if (amount === 'everything') yield token('comment', item);
      break;
  }
}

function* flowTokens(block: Block, flow: Flow, dialect: DialectName, amount: TokenAmount): Iterable<Found> {
  if (flow.form === 'o-word') {
    yield* oWordTokens(flow, dialect, amount);
    return;
  }
  if (amount === 'everything') yield* keywordTokens(block, flow);
  if ('condition' in flow && flow.condition) yield* valueTokens(flow.condition, dialect, amount);
  if (flow.form === 'goto') {
    if (flow.target.kind === 'number') yield token('label', flow.target);
    else yield* valueTokens(flow.target, dialect, amount);
  }
  if (flow.form === 'if-then' && flow.statement) {
    yield* parameterTokens(flow.statement.target, dialect, amount, 'modification');
    yield* valueTokens(flow.statement.value, dialect, amount);
  }
}

/** `IF`, `GOTO`, `THEN`, `WHILE`, `DO`, `END`, wherever they stand around the condition. */
function* keywordTokens(block: Block, flow: Exclude<Flow, OWordFlow>): Iterable<Found> {
  const word = /\b(IF|GOTO|THEN|WHILE|DO|END)(?![A-Z])/gi;
  const text = block.text.slice(0, flow.end);
  word.lastIndex = flow.start;
  for (let found = word.exec(text); found; found = word.exec(text)) {
    yield token('keyword', { start: found.index, end: found.index + found[0].length });
  }
}

function* oWordTokens(flow: OWordFlow, dialect: DialectName, amount: TokenAmount): Iterable<Found> {
  const { keyword, labelExpression } = flow;
  const ofRoutine = keyword === 'sub' || keyword === 'endsub' || keyword === 'call' || keyword === 'return';
  if (labelExpression) yield* valueTokens(labelExpression, dialect, amount);
  else if (keyword === 'sub') yield token('function', flow.labelSpan, 'definition');
  else yield token(ofRoutine ? 'function' : 'label', flow.labelSpan);
  if (amount === 'everything') yield token('keyword', flow.keywordSpan);
  for (const argument of flow.arguments) yield* valueTokens(argument, dialect, amount);
}

function* valueTokens(e: Expression, dialect: DialectName, amount: TokenAmount): Iterable<Found> {
  switch (e.kind) {
    case 'number':
      if (amount === 'everything') yield token('number', e);
      break;
    case 'parameter':
      yield* parameterTokens(e, dialect, amount);
      break;
    case 'unary':
      yield* valueTokens(e.operand, dialect, amount);
      break;
    case 'binary':
      yield* valueTokens(e.left, dialect, amount);
      yield* valueTokens(e.right, dialect, amount);
      break;
    case 'call':
      yield { ...token('function', e, 'defaultLibrary'), isCall: true };
      for (const argument of e.arguments) yield* valueTokens(argument, dialect, amount);
      break;
  }
}

/** Where the program computes the number, only the `#` is the outer parameter's. */
function* parameterTokens(
  parameter: ParameterExpression,
  dialect: DialectName,
  amount: TokenAmount,
  ...modifiers: TokenModifier[]
): Iterable<Found> {
  const name = parameterName(parameter);
  if (name === null) {
    yield token('variable', { start: parameter.start, end: parameter.start + 1 }, ...modifiers);
    if ('expression' in parameter.index) yield* valueTokens(parameter.index.expression, dialect, amount);
    return;
  }
  const meaning = parameterMeaning(name, dialect);
  if (meaning) {
    const readOnly: readonly TokenModifier[] = meaning.readOnly ? ['readonly'] : [];
    yield token('variable', parameter, ...modifiers, ...readOnly, 'defaultLibrary');
  } else if (!isLocal(name, dialect)) yield token('variable', parameter, ...modifiers, 'static');
  else yield token(/^\d/.test(name) ? 'parameter' : 'variable', parameter, ...modifiers);
}

/** A comment of ours, one that acts with the parameters that it prints, or one that only comments. */
function* commentTokens(
  block: Block,
  comment: Comment,
  dialect: Dialect,
  amount: TokenAmount,
): Iterable<Found> {
  if (readDirective(comment.text)) {
    // A grammar tells its words apart.
    if (amount === 'everything') yield token('comment', comment, 'documentation');
    return;
  }
  const message = readMessage(block, comment, dialect);
  for (const parameter of message?.parameters ?? []) yield* parameterTokens(parameter, dialect.name, amount);
  if (amount === 'everything' && (message?.parameters.length ?? 0) === 0)
    yield token(message ? 'string' : 'comment', comment);
}
