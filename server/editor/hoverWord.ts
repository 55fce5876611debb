import { rules } from '../checks/registry.ts';
import { codeOf } from '../program/codes.ts';
import { parameterMeaning } from '../program/parameterMeaning.ts';
import { isLocal } from '../program/parameters.ts';
import type { DialectName } from '../syntax/dialect.ts';
import { readDirective } from '../syntax/directives.ts';
import { suppressions } from '../syntax/suppressions.ts';
import type { Block, Comment, Flow, ParameterExpression, Stray, Word } from '../syntax/tree.ts';
import type { Program } from '../workspace/program.ts';
import { codesOfBlock } from './blockCodes.ts';
import { messageParts, outputParts } from './hoverItem.ts';
import { keywordMeanings } from './keywords.ts';
import { isArgument, letterMeaning, specialMeaning } from './letters.ts';
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
    case 'stray':
      return strayParts(block, item);
    case 'percent':
      return [paragraph(`${code('%')} — the program begins or ends here; the rest of the line is a remark.`)];
    default:
      return [];
  }
}

/** `O10` alone heads a program in the other dialect; of other strays their finding tells. */
function strayParts({ faults, text }: Block, { start, end }: Stray): Part[] {
  if (!faults.some((fault) => fault.code === 'program-number' && fault.start === start)) return [];
  return [
    paragraph(
      `${code(text.slice(start, end))} — number of the program in the macro dialect. In rs274ngc an O-word needs a keyword behind it: sub, call, if, while …`,
    ),
  ];
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
  const argument = isArgument(word, block, dialect);
  if (!argument && (word.letter === 'G' || word.letter === 'M')) return aboutCode(word, dialect);
  const meaning = argument
    ? 'argument of the call'
    : (feedMeaning(word, block, program, line) ?? axisMeaning(word, block, program, line));
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
  const letter = word.letter as 'G' | 'M';
  const known = codeOf(letter, value.value, dialect);
  if (known) return `**${known.code}** — ${known.title}\n\n${known.help}`;
  const other: DialectName = dialect === 'macro' ? 'rs274ngc' : 'macro';
  const there = codeOf(letter, value.value, other);
  const unknown = `${code(`${letter}${value.value}`)} — no code of this dialect`;
  return there ? `${unknown}; in the ${other} dialect: ${there.title}.\n\n${there.help}` : `${unknown}.`;
}

function feedMeaning(word: Word, block: Block, program: Program, line: number): string | null {
  if (word.letter !== 'F') return null;
  const codes = codesOfBlock(block);
  const feedMode = program.analysis.stateAt(line)?.modes.feedMode ?? [];
  const unit = unitHere(codes, program, line);
  if (feedMode.includes('G93') || codes.includes('G93'))
    return 'feed as inverse time: the move takes 1/F minutes';
  return feedMode.includes('G95') || codes.includes('G95')
    ? `feed, ${unit} per turn of the spindle`
    : `feed, ${unit}/min`;
}

/** What the letter means here; where an axis goes, in the units and modes in force. */
function axisMeaning(word: Word, block: Block, program: Program, line: number): string | null {
  const dialect = program.source.dialect.name;
  const codes = codesOfBlock(block);
  const unit = unitHere(codes, program, line);
  const meaning = letterMeaning(word, block, dialect);
  const told = meaning && (meaning.isLength ? `${meaning.title}, ${unit}` : meaning.title);
  if (!'XYZ@^'.includes(word.letter) || specialMeaning(word.letter, block, dialect)) return told;
  return `${told ?? `along ${word.letter}, ${unit}`}: ${howFar(word, codes, program, line)}`;
}

function howFar({ letter }: Word, codes: readonly string[], program: Program, line: number): string {
  const isPolar = '@^'.includes(letter);
  if (codes.includes('G53')) return 'to this machine coordinate';
  const stated = ['G90', 'G91'].filter((name) => codes.includes(name));
  const distance = stated.length > 0 ? stated : (program.analysis.stateAt(line)?.modes.distance ?? []);
  if (distance.length !== 1) return 'distance mode not known';
  if (distance[0] === 'G91') return isPolar ? 'more by this much' : 'by this much';
  if (distance[0] !== 'G90') return 'distance mode not set';
  return isPolar ? 'to this much' : 'to this work coordinate';
}

function unitHere(codes: readonly string[], program: Program, line: number): 'in' | 'mm' {
  if (codes.includes('G20')) return 'in';
  if (codes.includes('G21')) return 'mm';
  const modes = program.analysis.stateAt(line)?.modes;
  const fallback = program.profile.profile.units;
  return (modes ? unitsAt(modes, fallback) : fallback) === 'inch' ? 'in' : 'mm';
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
