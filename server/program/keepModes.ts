import type { Scope } from './evaluate.ts';
import { allModes, type ModeMasks, unknown } from './modes.ts';
import type { ReadBlock } from './readBlock.ts';

/** M70 and M73 keep the modes with F and S, M72 puts them back, M71 forgets them (rs274ngc, common practice, no source). */
export function keepModes(read: ReadBlock, scope: Scope): ModeMasks | null {
  if (scope.dialect !== 'rs274ngc') return null;
  const { state } = scope;
  for (const { code } of read.codes) {
    if (code === 'M70' || code === 'M73')
      state.saved = {
        modes: { ...state.modes },
        feed: state.feed,
        speed: state.rig.speed,
        restoreOnReturn: code === 'M73',
      };
    if (code === 'M71') state.saved = null;
    if (code === 'M72') return state.saved?.modes ?? allModes(unknown);
  }
  return null;
}
