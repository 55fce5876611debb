import { sameMake } from '../analysis/derived.ts';
import type { Datum, Term } from '../analysis/model.ts';
import { parameterMeaning } from '../program/parameterMeaning.ts';
import { directionName } from '../report/direction.ts';
import type { Setting } from '../syntax/tree.ts';
import { fileName } from '../workspace/documentKind.ts';
import type { Program } from '../workspace/program.ts';
import { datumParts } from './hoverDatum.ts';
import { parameterName, shownParameter } from './parameterName.ts';
import { type Branch, code, type Part, paragraph } from './richText.ts';
import { parametersOf, type WordAt } from './wordAt.ts';

const deepest = 8;
const mostBranches = 60;

/** A parameter that touches enter: how far off it can be, and what it rests on. Empty for any other. */
export function derivedParts(program: Program, line: number, { item, parameter }: WordAt): Part[] {
  const written = parameter && parameterName(parameter);
  if (!written || isLatched(written)) return [];
  const name = shownParameter(written);
  if (parameterMeaning(name, program.source.dialect.name)) return [];
  const isSet = item.kind === 'setting' && item.target === parameter;
  const made = program.analysis.derivedAt(line, name, isSet ? 'behind' : 'before');
  if (made.length === 0) return [];
  const trees = made.map((each) => derivedTree(program, line, name, each));
  return [...datumParts(program, made), paragraph('It rests on:'), ...trees];
}

/**
 * What a parameter rests on, down to the touches: the block that set it, the parameters in that block, and so on. A block
 * is named only where what it left behind is what is asked about.
 */
function derivedTree(program: Program, line: number, name: string, made: Datum): Part {
  const left = { count: mostBranches };
  return { kind: 'tree', branches: [branchOf(program, line, name, made, { left, depth: 0 })] };
}

interface Bound {
  readonly left: { count: number };
  readonly depth: number;
}

function branchOf(program: Program, line: number, name: string, made: Datum, bound: Bound): Branch {
  const at = bound.depth < deepest ? settingOf(program, line, name, made) : null;
  if (at === null)
    return { text: code(name), branches: termsOf(made).map((term) => touchBranch(term, program)) };
  const { setting, setAt } = at;
  const text = program.source.block(setAt).text.slice(setting.start, setting.end).trim();
  const branches: Branch[] = [];
  for (const { parameter } of [...parametersOf(setting)].filter(({ isSet }) => !isSet)) {
    const inner = parameterName(parameter);
    if (inner === null || bound.left.count-- <= 0) continue;
    const shown = shownParameter(inner);
    for (const each of program.analysis.derivedAt(setAt, shown, 'before'))
      branches.push(
        isLatched(inner)
          ? latchedBranch(shown, each, program)
          : branchOf(program, setAt, shown, each, { ...bound, depth: bound.depth + 1 }),
      );
  }
  return { text: `${code(text)}, [line ${setAt + 1}](${program.uri}#L${setAt + 1})`, branches };
}

/** The setting above, or in, a line that left the parameter made as it is there. */
function settingOf(
  program: Program,
  line: number,
  name: string,
  made: Datum,
): { readonly setting: Setting; readonly setAt: number } | null {
  const { source, analysis } = program;
  const within = analysis.procedures.all.find(({ ranges }) => ranges.some(([a, b]) => line >= a && line < b));
  const [first] = within?.ranges[0] ?? [line];
  for (let at = line; at >= first; at--) {
    if (source.classOf(at) !== 2) continue;
    const setting = source.block(at).items.findLast((item): item is Setting => {
      if (item.kind !== 'setting') return false;
      const target = parameterName(item.target);
      return target !== null && shownParameter(target) === name;
    });
    if (!setting) continue;
    const left = analysis.derivedAt(at, name, 'behind').map(sameMake);
    if (left.includes(sameMake(made))) return { setting, setAt: at };
    if (at < line) return null;
  }
  return null;
}

function isLatched(name: string): boolean {
  return /^506[1-6]$/.test(name);
}

function termsOf({ terms, slopes }: Datum): readonly Term[] {
  return terms ?? slopes?.terms ?? [];
}

/** `#5061` of one touch: the touch stands for it. */
function latchedBranch(name: string, made: Datum, program: Program): Branch {
  const [only, ...more] = termsOf(made);
  if (only && more.length === 0) return { ...touchBranch(only, program), branches: [] };
  return { text: code(name), branches: termsOf(made).map((term) => touchBranch(term, program)) };
}

function touchBranch({ touch, axis, from }: Term, { uri }: Program): Branch {
  const file = touch.file === null ? '' : `${fileName(touch.file)}, `;
  const link = `[${file}line ${touch.line + 1}](${touch.file ?? uri}#L${touch.line + 1})`;
  const where = `${axis.toUpperCase()} ${from === 'latched' ? 'latched' : '**where it stopped**'}`;
  const calls =
    touch.calls.length === 0 ? '' : `, called in line ${touch.calls.map((l) => l + 1).join(' → ')}`;
  return { text: `${touch.code} ${directionName(touch.direction)}, ${link}${calls}: ${where}`, branches: [] };
}
