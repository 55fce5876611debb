import { rules } from '../checks/registry.ts';
import { codeOf } from '../program/codes.ts';
import { takesEveryWord } from '../program/codeWords.ts';
import { parameterMeaning } from '../program/parameterMeaning.ts';
import { isLocal } from '../program/parameters.ts';
import type { DialectName } from '../syntax/dialect.ts';
import { readDirective } from '../syntax/directives.ts';
import { suppressions } from '../syntax/suppressions.ts';
import type { Block, Comment, Flow, ParameterExpression, Word } from '../syntax/tree.ts';
import type { Program } from '../workspace/program.ts';
import { codesOfBlock } from './blockCodes.ts';
import { messageParts, outputParts } from './hoverItem.ts';
import { keywordMeanings } from './keywords.ts';
import { letterMeaning } from './letters.ts';
import { modesInForce, unitsAt } from './modesInForce.ts';
import { parameterName, shownParameter } from './parameterName.ts';
import { code, type Part, paragraph } from './richText.ts';
import { shownValue, valueHere } from './valueHere.ts';
import type { WordAt } from './wordAt.ts';

/** What a word, a parameter or a keyword means here, and what is in force. */
export function wordParts(program: Program, line: number, { item, parameter }: WordAt): Part[] {
  const block = program.source.block(line);
  if (parameter) return parameterParts(program, line, parameter);
  switch (item.kind) {
    case 'word':
      return aboutItem(item, block, program, line);
    case 'flow':
      return aboutFlow(item);
    case 'comment':
      return [...aboutComment(program, line, item), ...messageParts(program, line, block, item)];
    case 'output':
      return outputParts(program, line, item);
    case 'percent':
      return [paragraph(`${code('%')} — the program begins or ends here; the rest of the line is a remark.`)];
    default:
      return [];
  }
}

/** The number of a program is a heading: no path runs through it. */
function aboutItem(word: Word, block: Block, program: Program, line: number): Part[] {
  const about = aboutWord(word, block, program, line);
  if (word.letter === 'O' && about !== null) return [paragraph(about)];
  return withModes(program, line, about);
}

function withModes(program: Program, line: number, about: string | null): Part[] {
  if (about === null) return [];
  const modes = modesInForce(program.analysis.stateAt(line), program.profile.profile.units);
  return modes === '' ? [paragraph(about)] : [paragraph(about), paragraph(modes)];
}

function aboutWord(word: Word, block: Block, program: Program, line: number): string | null {
  const dialect = program.source.dialect.name;
  if (word.letter === 'G' || word.letter === 'M') return aboutCode(word, dialect);
  const codes = codesOfBlock(block);
  const meaning =
    axisMeaning(word, codes, program, line) ??
    withUnit(word, codes, program, line, letterMeaning(word.letter, codes, dialect));
  if (meaning === null) return null;
  return `${code(block.text.slice(word.start, word.end).trim())} — ${meaning}${computed(word, program, line)}`;
}

/** What a computed value comes to here, where that is known. */
function computed({ value }: Word, program: Program, line: number): string {
  if (value.kind === 'number') return '';
  const state = program.analysis.stateAt(line);
  const here = state && valueHere(value, state, program.source.dialect.name);
  return here === null ? '; the program computes its value' : `; here ${code(shownValue(here))}`;
}

function aboutCode(word: Word, dialect: DialectName): string | null {
  const { value } = word;
  if (value.kind !== 'number')
    return `${code(word.letter)} — which code it is depends on a value that the program computes.`;
  const known = codeOf(word.letter as 'G' | 'M', value.value, dialect);
  if (!known) return `${code(`${word.letter}${value.value}`)} — no code of this dialect.`;
  return `**${known.code}** — ${known.title}\n\n${known.help}`;
}

/** Where an axis word goes, and a feed, in the units and modes in force. */
function axisMeaning(word: Word, codes: readonly string[], program: Program, line: number): string | null {
  const dialect = program.source.dialect.name;
  const isArgument = codes.some((code) => takesEveryWord(code, dialect));
  if (isArgument || (word.letter !== 'F' && letterMeaning(word.letter, codes, dialect))) return null;
  const modes = program.analysis.stateAt(line)?.modes;
  const unit = unitHere(codes, program, line);
  if (word.letter === 'F') {
    if (modes?.feedMode.includes('G93') || codes.includes('G93'))
      return 'feed as inverse time: the move takes 1/F minutes';
    return modes?.feedMode.includes('G95') || codes.includes('G95')
      ? `feed, ${unit} per turn of the spindle`
      : `feed, ${unit}/min`;
  }
  if (!'XYZ'.includes(word.letter)) return null;
  const stated = ['G90', 'G91'].filter((name) => codes.includes(name));
  const distance = stated.length > 0 ? stated : (modes?.distance ?? []);
  const how =
    distance.length !== 1
      ? 'distance mode not known'
      : distance[0] === 'G91'
        ? 'by this much'
        : distance[0] === 'G90'
          ? 'to this work coordinate'
          : 'distance mode not set';
  return `along ${word.letter}, ${unit}: ${codes.includes('G53') ? 'to this machine coordinate' : how}`;
}

function unitHere(codes: readonly string[], program: Program, line: number): 'in' | 'mm' {
  if (codes.includes('G20')) return 'in';
  if (codes.includes('G21')) return 'mm';
  const modes = program.analysis.stateAt(line)?.modes;
  const fallback = program.profile.profile.units;
  return (modes ? unitsAt(modes, fallback) : fallback) === 'inch' ? 'in' : 'mm';
}

/** Letters that are lengths wherever they are no arguments of a call. */
function withUnit(
  word: Word,
  codes: readonly string[],
  program: Program,
  line: number,
  meaning: string | null,
): string | null {
  const isArgument = codes.some((code) => takesEveryWord(code, program.source.dialect.name));
  const isLength = 'XYZUVWIJKRQ'.includes(word.letter) && !isArgument;
  return meaning === null || !isLength ? meaning : `${meaning}, ${unitHere(codes, program, line)}`;
}

function parameterParts(program: Program, line: number, parameter: ParameterExpression): Part[] {
  const name = parameterName(parameter);
  if (name === null) return [paragraph('A parameter whose number the program computes.')];
  const dialect = program.source.dialect.name;
  const shown = shownParameter(name);
  const meaning = parameterMeaning(shown, dialect);
  const scope = isLocal(name, dialect) ? 'local to its routine' : 'shared by all routines';
  const state = program.analysis.stateAt(line);
  const value = state?.parameter(shown) ?? null;
  const parts = [paragraph(`${code(shown)} — ${meaning ? meaning.title : scope}`)];
  if (meaning?.readOnly) parts.push(paragraph('The control sets it; programs only read it.'));
  if (program.profile.profile.effectiveDiameterParameter === shown) {
    parts.push(
      paragraph('The profile says that it holds the effective diameter (`effectiveDiameterParameter`).'),
    );
  }
  if (value !== null) parts.push(paragraph(`Before this block it is ${code(shownValue(value))}.`));
  return parts;
}

function aboutFlow(flow: Flow): Part[] {
  const keyword = flow.form === 'o-word' ? flow.keyword : flow.form;
  const meaning = keywordMeanings[keyword];
  return meaning ? [paragraph(`**${meaning.shown}** — ${meaning.title}`)] : [];
}

function aboutComment(program: Program, line: number, comment: Comment): Part[] {
  const directive = readDirective(comment.text);
  if (directive?.kind === 'dialect')
    return [paragraph(`This file is read as ${code(directive.dialect)}, whatever it looks like.`)];
  if (directive?.kind !== 'allow') return [];
  const here = suppressions(program.source).filter(
    ({ place }) => place.line === line && place.start === comment.start,
  );
  return here.map(({ rule, reason }) => {
    const title = rules.find(({ id }) => id === rule)?.title ?? 'no rule of this name';
    return paragraph(`Allows ${code(rule)} (${title})${reason === null ? ' without a reason' : ''}.`);
  });
}
