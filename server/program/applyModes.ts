import { isCycle, modeEffect, motionCodes } from './effects.ts';
import { placeOf, type Scope } from './evaluate.ts';
import { type ModeGroup, maskOf, onlyCode, unknown, unset } from './modes.ts';
import { selectOffset } from './offsets.ts';
import { unitScale } from './parameters.ts';
import type { ReadBlock } from './readBlock.ts';
import { rescale } from './restoreModes.ts';
import { applyToolOffset } from './toolOffsets.ts';
import { given, scale } from './value.ts';

/** The modal codes of a block in the order of NISTIR 6556, Table 8, then its F and S. */
export function applyModes(read: ReadBlock, scope: Scope): void {
  const { state, dialect } = scope;
  const effects = read.codes
    .map(({ code }) => ({ code, effect: modeEffect(code, dialect) }))
    .sort((a, b) => (a.effect?.step ?? 99) - (b.effect?.step ?? 99));
  for (const { code, effect } of effects) {
    if (isCycle(code, dialect)) state.modes.motion = maskOf('motion', 'cycle');
    else if (motionCodes.has(code)) startMotion(code, scope);
    else if (otherMotions[dialect].has(code)) state.modes.motion = unknown;
    const other = dialect === 'macro' ? otherMeasures[code] : undefined;
    if (other) state.modes[other] = unknown;
    if (!effect) continue;
    if (effect.group === 'units')
      rescale(scope, (code === 'G20' ? 1 / 25.4 : 1) / unitScale(state, scope.world));
    if (effect.group === 'workOffset') selectOffset(code, read.words.get('P')?.value, scope);
    else {
      if (effect.group === 'feedMode') changeFeedMode(effect.mask, scope);
      state.modes[effect.group] = effect.mask;
    }
    if (effect.group === 'toolLength') applyToolOffset(code, read, scope);
  }
  applyFeed(read, scope);
  const s = read.words.get('S');
  if (s) state.rig = { ...state.rig, speed: s.value };
}

/** Codes of the motion group that the interpreter knows no path of. */
const otherMotions = {
  rs274ngc: new Set('G5 G5.1 G5.2 G5.3 G33 G33.1 G76'.split(' ')),
  macro: new Set('G6 G6.1 G6.2 G33 G2.2 G3.2 G2.3 G3.3 G2.4 G3.4'.split(' ')),
};

/** Codes of the macro family that are units, a plane or a feed mode on some controls (common practice, no source). */
const otherMeasures: Readonly<Record<string, ModeGroup>> = {
  'G17.1': 'plane',
  'G20.1': 'units',
  G70: 'units',
  G71: 'units',
  'G93.1': 'feedMode',
  'G93.2': 'feedMode',
};

/** A code of the motion group ends the series of canned cycles. */
function startMotion(code: string, { state }: Scope): void {
  state.modes.motion = maskOf('motion', code);
  if (state.rig.cycle !== null) state.rig = { ...state.rig, cycle: null };
}

/** A feed of another mode is none in this one: it has to be given anew (NISTIR 6556, 3.5.19). */
function changeFeedMode(mask: number, { state }: Scope): void {
  const before = state.modes.feedMode === unset ? maskOf('feedMode', 'G94') : state.modes.feedMode;
  if (before === mask || before & unknown || onlyCode('feedMode', before) === null) return;
  state.feed = {
    unset: true,
    value: given('other-feed', 'no feed was given since the feed mode changed'),
    place: null,
    byPath: [],
  };
  state.rig = {
    ...state.rig,
    otherFeed: given('other-feed', 'no feed was given since the feed mode changed'),
  };
}

function applyFeed(read: ReadBlock, scope: Scope): void {
  const f = read.words.get('F');
  if (!f) return;
  const { state, world } = scope;
  world.used(f.value, 'motion', placeOf(f.word, scope), state);
  const other = (state.modes.feedMode & ~(maskOf('feedMode', 'G94') | unset | unknown)) !== 0;
  const value = other
    ? given('other-feed', 'the feed is not per minute')
    : scale(f.value, 1 / unitScale(state, world));
  state.feed = { unset: false, value, place: placeOf(f.word, scope), byPath: [] };
  if (other) state.rig = { ...state.rig, otherFeed: f.value };
}
