import type { StateView } from '../analysis/analysis.ts';
import type { Modes } from '../analysis/model.ts';
import { quantities, type Units } from '../report/quantities.ts';
import { code } from './richText.ts';

/** One line: what is in force before a block, as far as every path agrees on it; empty where nothing was set. */
export function modesInForce(state: StateView | null, units: Units): string {
  if (state === null) return 'No path gets here.';
  const shown = groups.flatMap(([group, always]) => {
    const text = inForce(state.modes[group]);
    return text === null || (!always && state.modes[group].includes('unset')) ? [] : [text];
  });
  if (state.feed !== null) shown.push(quantities(unitsAt(state.modes, units)).feed(state.feed));
  return shown.length === 0 ? '' : `In force here: ${shown.join(' · ')}`;
}

/** The unit of a place, where the program states one; else that of its profile. */
export function unitsAt(modes: Modes, fallback: Units): Units {
  const [only, second] = modes.units;
  if (second !== undefined) return fallback;
  return only === 'G20' ? 'inch' : only === 'G21' ? 'mm' : fallback;
}

/** Groups that are always named, so that an unset one is seen, and those that are named only when set. */
const groups: readonly (readonly [keyof Modes, boolean])[] = [
  ['units', true],
  ['distance', true],
  ['feedMode', false],
  ['plane', false],
  ['workOffset', false],
  ['motion', false],
  ['toolLength', false],
  ['cutterCompensation', false],
  ['spindle', false],
  ['coolant', false],
];

function inForce(codes: readonly string[]): string | null {
  const known = codes.filter((name) => name !== 'unset' && name !== 'unknown').map(code);
  if (known.length === 0) return null;
  const open = codes.includes('unset') ? ' or what it finds' : codes.includes('unknown') ? ' or another' : '';
  return `${known.join(' or ')}${open}`;
}
