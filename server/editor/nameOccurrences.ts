import { callSiteOf, labelName } from '../analysis/callSites.ts';
import type { Place } from '../syntax/place.ts';
import type { Source } from '../syntax/source.ts';
import { type Callee, callsOf, type KnownProgram } from '../workspace/relatedPrograms.ts';
import { blockParameters } from './blockParameters.ts';
import { blockNumbers, type Name, namesSubroutine, procedureHolds } from './names.ts';
import { parameterName } from './parameterName.ts';

export interface Occurrence {
  readonly uri: string;
  readonly source: Source;
  /** As references show it: a parameter with its `#`, of anything else the name alone. */
  readonly place: Place;
  readonly role: 'declares' | 'writes' | 'reads';
}

/**
 * Where a name that stands in a program is declared, set or used, in the order of the text, that program first.
 * @param related the programs that calls connect with it, itself among them
 */
export function nameOccurrences(
  name: Name,
  program: KnownProgram,
  related: readonly KnownProgram[],
): Occurrence[] {
  switch (name.kind) {
    case 'parameter':
      return (name.within ? [program] : related).flatMap((each) => parameterOccurrences(name, each));
    case 'subroutine':
      return subroutineOccurrences(name.name, program, related);
    case 'block':
      return blockOccurrences(name, program);
    case 'flow':
      return flowOccurrences(name, program);
  }
}

function parameterOccurrences(
  { name, within }: Extract<Name, { kind: 'parameter' }>,
  { uri, source }: KnownProgram,
): Occurrence[] {
  const found: Occurrence[] = [];
  for (const line of source.otherLines()) {
    if ((within && !procedureHolds(within, line)) || !source.text.line(line).includes('#')) continue;
    for (const { parameter, isSet } of blockParameters(source, line)) {
      if (parameterName(parameter) !== name) continue;
      const place = { line, start: parameter.start, end: parameter.end };
      found.push({ uri, source, place, role: isSet ? 'writes' : 'reads' });
    }
  }
  return found;
}

function subroutineOccurrences(
  name: string,
  program: KnownProgram,
  related: readonly KnownProgram[],
): Occurrence[] {
  const callee = program.callee(name);
  if (!callee) return unknownCalls(name, program);
  const calls = [...callsOf(callee, related)].map(
    ({ site, program: { uri, source } }): Occurrence => ({ uri, source, place: site.place, role: 'reads' }),
  );
  const all = [...declarations(name, callee), ...calls];
  return all.sort(
    (a, b) =>
      Number(b.uri === program.uri) - Number(a.uri === program.uri) ||
      (a.uri < b.uri ? -1 : a.uri > b.uri ? 1 : a.place.line - b.place.line || a.place.start - b.place.start),
  );
}

/** Calls of something that is in no known file. */
function unknownCalls(name: string, { uri, source }: KnownProgram): Occurrence[] {
  const found: Occurrence[] = [];
  for (const line of source.otherLines()) {
    const site = callSiteOf(source.block(line), line);
    if (site?.name === name) found.push({ uri, source, place: site.place, role: 'reads' });
  }
  return found;
}

/** Where a subroutine begins, ends and returns, in the file that holds it. */
function* declarations(name: string, { uri, source }: Callee): Iterable<Occurrence> {
  for (const line of source.otherLines()) {
    const { items, text } = source.block(line);
    for (const item of items) {
      if (item.kind === 'flow' && item.form === 'o-word' && item.label === name) {
        if (!namesSubroutine(item) || item.keyword === 'call') continue;
        const role = item.keyword === 'sub' ? 'declares' : 'reads';
        yield { uri, source, place: { line, ...labelName(text, item.labelSpan) }, role };
      } else if (item.kind === 'word' && item.letter === 'O' && item.value.kind === 'number') {
        if (String(item.value.value) !== name) continue;
        const { start, end } = item.value;
        yield { uri, source, place: { line, start, end }, role: 'declares' };
      }
    }
  }
}

function blockOccurrences(
  { name, within }: Extract<Name, { kind: 'block' }>,
  { uri, source }: KnownProgram,
): Occurrence[] {
  const found: Occurrence[] = [];
  const ranges = within?.ranges ?? [[0, source.lineCount] as const];
  // A number of hundreds of digits is named 1e+296: its digits are not to be found in a line.
  const digits = /^\d+$/.test(name) ? `[\\s0]*${[...name].join('\\s*')}(?!\\s*\\d)` : '';
  const mayHold = new RegExp(`[no]${digits}`, 'i');
  for (const [from, to] of ranges)
    for (let line = from; line < to; line++) {
      if (!mayHold.test(source.text.line(line))) continue;
      for (const { number, start, end, isTarget } of blockNumbers(source, line))
        if (String(number) === name)
          found.push({ uri, source, place: { line, start, end }, role: isTarget ? 'declares' : 'reads' });
    }
  return found;
}

function flowOccurrences(
  { name, within }: Extract<Name, { kind: 'flow' }>,
  { uri, source }: KnownProgram,
): Occurrence[] {
  const found: Occurrence[] = [];
  for (const line of source.otherLines()) {
    if (within && !procedureHolds(within, line)) continue;
    const { items, text } = source.block(line);
    for (const item of items) {
      if (item.kind !== 'flow' || item.form !== 'o-word' || item.label !== name || namesSubroutine(item))
        continue;
      const begins = /^(if|while|do|repeat)$/.test(item.keyword) && found.length === 0;
      const place = { line, ...labelName(text, item.labelSpan) };
      found.push({ uri, source, place, role: begins ? 'declares' : 'reads' });
    }
  }
  return found;
}
