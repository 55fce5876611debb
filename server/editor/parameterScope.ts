import { isLocal } from '../program/parameters.ts';
import type { Source } from '../syntax/source.ts';
import { blockParameters } from './blockParameters.ts';
import { procedureAt, procedureHolds } from './names.ts';
import { parameterName } from './parameterName.ts';

/** Names set anywhere that can be meant at that line: shared ones, and the locals of its own routine. */
export function namesInScope(source: Source, line: number): string[] {
  const own = procedureAt(source, line);
  const names = new Set<string>();
  for (const other of source.otherLines()) {
    if (!source.text.line(other).includes('#')) continue;
    for (const { parameter, isSet } of blockParameters(source, other)) {
      const name = parameterName(parameter);
      if (name === null || !isSet) continue;
      if (!isLocal(name, source.dialect.name) || !own || procedureHolds(own, other)) names.add(name);
    }
  }
  return [...names];
}
