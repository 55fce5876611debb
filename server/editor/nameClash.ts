import type { Source } from '../syntax/source.ts';
import { callsOf } from '../workspace/relatedPrograms.ts';
import { nameOccurrences } from './nameOccurrences.ts';
import type { Name } from './names.ts';
import type { NewName } from './newName.ts';
import { shownParameter } from './parameterName.ts';
import { computedObstacle, jumpObstacle } from './renameTarget.ts';
import type { Surroundings } from './surroundings.ts';

/** Why the new name is taken, as a sentence; null: it is free. */
export function nameClash(name: Name, to: NewName, around: Surroundings): string | null {
  const { program, related } = around;
  if (name.kind === 'subroutine') return subroutineClash(name.name, to, around);
  const renamed = { ...name, name: to.name } as Exclude<Name, { kind: 'subroutine' }>;
  if (renamed.kind === 'flow') return labelClash(program.source, to);
  const [taken] = nameOccurrences(renamed, program, related);
  if (taken) {
    const shown = renamed.kind === 'parameter' ? shownParameter(to.name) : `N${to.name}`;
    const where = taken.uri === program.uri ? '' : ` of ${taken.uri}`;
    return `${shown} is in use already: line ${taken.place.line + 1}${where}.`;
  }
  if (renamed.kind === 'block') return jumpObstacle(renamed, program, related);
  return /^\d+$/.test(to.name) ? computedObstacle(renamed, program, related) : null;
}

/** In the file that holds it no label may be the same; in a file that calls it no subroutine, which would be called instead. */
function subroutineClash(name: string, to: NewName, { program, related }: Surroundings): string | null {
  const callee = program.callee(name);
  if (!callee) return null;
  const own = labelClash(callee.source, to);
  if (own !== null) return own;
  for (const { program: caller } of callsOf(callee, related)) {
    const other = caller.callee(to.name);
    if (other) return `${to.written} is a subroutine already, which ${caller.uri} would call instead.`;
  }
  return null;
}

function labelClash(source: Source, to: NewName): string | null {
  for (const line of source.otherLines())
    for (const item of source.block(line).items) {
      const label =
        item.kind === 'flow' && item.form === 'o-word'
          ? item.label
          : item.kind === 'word' && item.letter === 'O' && item.value.kind === 'number'
            ? String(item.value.value)
            : null;
      if (label === to.name) return `${to.written} is in use already: line ${line + 1}.`;
    }
  return null;
}
