import type { Datum } from '../analysis/model.ts';
import { effectiveDiameter } from '../probe/effectiveDiameter.ts';
import { probeOf } from '../profile/probeOf.ts';
import type { Profile } from '../profile/profile.ts';
import type { DialectName } from '../syntax/dialect.ts';
import type { Block, Expression, Setting, Word } from '../syntax/tree.ts';
import { formOfG10, hasCode } from './blockFacts.ts';
import { knownUnit } from './quantity.ts';
import type { CheckContext, Fix } from './rule.ts';

/**
 * Adds what a datum lacks for the tip, `needed`·D, to the value that its block writes (error-model.md, section 4): the
 * variable in which the shop keeps the diameter, else the calibration's number. None where that is neither the whole
 * diameter nor its half, or the block shows no sum that it could join.
 */
export function radiusFix(datum: Datum, needed: number, context: CheckContext): Fix[] {
  const { analysis, profile } = context;
  const { line } = datum.place;
  if (datum.file !== null) return [];
  const block = analysis.source.block(line);
  const item = block.items.find(
    (each): each is Word | Setting =>
      (each.kind === 'word' || each.kind === 'setting') && each.start === datum.place.start,
  );
  const modes = analysis.stateAt(line)?.modes;
  const unit = modes && knownUnit(modes);
  const halves = Math.round(2 * Math.abs(needed) * 1e6) / 1e6;
  const size = unit && tipText(halves, unit, profile);
  const side = item && sideOf(item, block, analysis.source.dialect.name);
  if (!item || !side || !size || !isSum(item.value)) return [];
  const isAdded = needed * side > 0;
  const text = joined(block, item, isAdded ? '+' : '-', size, analysis.source.dialect.name === 'macro');
  return [
    {
      title: `${isAdded ? 'Add' : 'Subtract'} ${size.replaceAll(' ', '')}, the effective ${halves === 2 ? 'diameter' : 'radius'}`,
      edits: [{ line, ...text.at, endLine: line, text: text.put }],
      changesMotion: true,
    },
  ];
}

/** @param halves of the diameter, 1 or 2 */
function tipText(halves: number, unit: 'mm' | 'inch', profile: Profile): string | null {
  if (halves !== 1 && halves !== 2) return null;
  const { effectiveDiameterParameter: parameter } = profile;
  if (parameter !== null) return halves === 2 ? parameter : `${parameter} / 2`;
  if (profile.probe.calibration === null) return null;
  const mm = (halves / 2) * effectiveDiameter(probeOf(profile)).value;
  return String(Number((unit === 'mm' ? mm : mm / 25.4).toPrecision(6)));
}

/** 1 where the value is the origin itself, -1 where it is what the axis is to read where it stands; null: neither for certain. */
function sideOf(item: Word | Setting, block: Block, dialect: DialectName): 1 | -1 | null {
  if (item.kind === 'setting') return 1;
  if (hasCode(block, ['G92'])) return -1;
  const form = formOfG10(block);
  if (form === 2) return 1;
  // In the macro family L20 is L2 of the further offsets G54.1 P… (common practice, no source).
  return form === 20 ? (dialect === 'macro' ? 1 : -1) : null;
}

/** A term may follow: nothing in it binds less than + does. */
function isSum(value: Expression): boolean {
  return value.kind !== 'bad' && (value.kind !== 'binary' || /^([-+*/]|\*\*)$/.test(value.operator));
}

interface Insertion {
  readonly at: { readonly start: number; readonly end: number };
  readonly put: string;
}

/** Inside the brackets of the whole value, or in new ones. */
function joined(
  { text }: Block,
  item: Word | Setting,
  sign: string,
  size: string,
  tight: boolean,
): Insertion {
  const term = tight ? `${sign}${size.replaceAll(' ', '')}` : ` ${sign} ${size}`;
  const start = item.kind === 'word' ? item.start + 1 : text.indexOf('=', item.target.end) + 1;
  const shown = text.slice(start, item.end);
  const value = shown.trim();
  if (isBracketed(value)) {
    const at = start + shown.lastIndexOf(']');
    return { at: { start: at, end: at }, put: term };
  }
  if (item.kind === 'setting' && tight) return { at: { start: item.end, end: item.end }, put: term };
  const lead = shown.length - shown.trimStart().length;
  return { at: { start: start + lead, end: item.end }, put: `[${value}${term}]` };
}

/** One pair of brackets round the whole. */
function isBracketed(value: string): boolean {
  if (!value.startsWith('[') || !value.endsWith(']')) return false;
  let depth = 0;
  for (const [index, c] of [...value].entries()) {
    if (c === '[') depth++;
    if (c === ']') depth--;
    if (depth === 0 && index < value.length - 1) return false;
  }
  return true;
}
