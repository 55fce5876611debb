import type { Position } from 'vscode-languageserver';
import { proceduresOf } from '../analysis/procedures.ts';
import { parameterMeaning } from '../program/parameterMeaning.ts';
import type { Source } from '../syntax/source.ts';
import type { KnownProgram } from '../workspace/relatedPrograms.ts';
import { blockParameters } from './blockParameters.ts';
import { type Name, type NameAt, nameAt, procedureHolds } from './names.ts';
import { parameterName, shownParameter } from './parameterName.ts';
import type { Surroundings } from './surroundings.ts';

/** Why something is not renamed, as a sentence for the person who asked. */
export interface Refusal {
  readonly refused: string;
}

/** The name at a position where it can be renamed without another meaning, else why not. */
export function renameTarget(around: Surroundings, { line, character }: Position): NameAt | Refusal {
  const target = nameAt(around.program.source, line, character);
  if (!target) return { refused: 'Nothing here has a name that can be changed.' };
  const refused = obstacle(target.name, around);
  return refused === null ? target : { refused };
}

function obstacle(name: Name, { program, related, namedByProfile }: Surroundings): string | null {
  switch (name.kind) {
    case 'parameter':
      return shownParameter(name.name) === namedByProfile
        ? `The profile names ${namedByProfile} as effectiveDiameterParameter: rename it there and here by hand.`
        : parameterObstacle(name, program, related);
    case 'subroutine':
      return program.callee(name.name)
        ? null
        : `No file that is known holds subroutine ${name.name}: only its calls could be changed.`;
    case 'block':
      return jumpObstacle(name, program, related);
    case 'flow':
      return null;
  }
}

type Parameter = Extract<Name, { kind: 'parameter' }>;

function parameterObstacle(
  name: Parameter,
  program: KnownProgram,
  related: readonly KnownProgram[],
): string | null {
  const shown = shownParameter(name.name);
  const meaning = parameterMeaning(shown, program.source.dialect.name);
  if (meaning) return `${shown} is the control's own (${meaning.title}): its name is fixed.`;
  if (!/^\d+$/.test(name.name)) return null;
  return argumentObstacle(name, program.source) ?? computedObstacle(name, program, related);
}

/** Calls and M98 hand values over by the number of a local. */
function argumentObstacle({ name, within }: Parameter, source: Source): string | null {
  if (within === null) return null;
  const { main } = proceduresOf(source);
  if (within !== main && within.name !== null)
    return `In a subroutine #${name} can hold an argument of its calls, which give it by its number.`;
  if (!source.dialect.macroFlow) return null;
  for (const line of source.otherLines())
    for (const item of source.block(line).items)
      if (
        item.kind === 'word' &&
        item.letter === 'M' &&
        item.value.kind === 'number' &&
        item.value.value === 98
      )
        return `M98 on line ${line + 1} shares #${name} with the program that it calls.`;
  return null;
}

/** Why a number can't be given up or taken: `#[…]` may mean it. */
export function computedObstacle(
  { name, within }: Parameter,
  program: KnownProgram,
  related: readonly KnownProgram[],
): string | null {
  for (const { uri, source } of within ? [program] : related)
    for (const line of source.otherLines()) {
      if ((within && !procedureHolds(within, line)) || !source.text.line(line).includes('#')) continue;
      for (const { parameter } of blockParameters(source, line))
        if (parameterName(parameter) === null)
          return `Line ${line + 1}${uri === program.uri ? '' : ` of ${uri}`} computes which parameter it means, which may be ${shownParameter(name)}.`;
    }
  return null;
}

/** Why an N number can't be given up or taken: a jump may mean it that does not name it. */
export function jumpObstacle(
  { name, within }: Extract<Name, { kind: 'block' }>,
  program: KnownProgram,
  related: readonly KnownProgram[],
): string | null {
  for (const each of related)
    for (const line of each.source.otherLines()) {
      const here = each === program && (!within || procedureHolds(within, line));
      const { items } = each.source.block(line);
      if (here && items.some((i) => i.kind === 'flow' && i.form === 'goto' && i.target.kind !== 'number'))
        return `The GOTO on line ${line + 1} computes where it jumps, which may be N${name}.`;
      const returns = items.some((i) => i.kind === 'word' && i.letter === 'M' && isNumber(i.value, 99));
      const target = items.find((i) => i.kind === 'word' && i.letter === 'P');
      if (
        returns &&
        target?.kind === 'word' &&
        (isNumber(target.value, Number(name)) || target.value.kind !== 'number')
      )
        return `M99 P on line ${line + 1}${each === program ? '' : ` of ${each.uri}`} may return to N${name}.`;
    }
  return null;
}

function isNumber(value: { readonly kind: string; readonly value?: unknown }, wanted: number): boolean {
  return value.kind === 'number' && value.value === wanted;
}
