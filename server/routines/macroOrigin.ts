import { minus, plus } from './expression.ts';
import { comment, remarked } from './macroNotation.ts';
import type { MacroText } from './macroText.ts';
import type { DatumWrite } from './motion.ts';

const firstOffset = 54;
const axisNumber = { x: 1, y: 2, z: 3 } as const;

/**
 * L2 sets the origin itself: the old one, moved by what was measured less what it is to be called. Where the tip stands
 * does not come into it.
 */
export function macroOriginWrite(datums: readonly DatumWrite[], offset: string, text: MacroText): string[] {
  const isActive = offset === 'active';
  const system = isActive ? 0 : Number(offset.slice(1)) - firstOffset + 1;
  const origins = datums.map(({ axis }) => {
    const number = isActive
      ? `#[${5200 + axisNumber[axis]}+20*${text.name('offset number')}]`
      : `#${5200 + axisNumber[axis] + 20 * system}`;
    return remarked(`${text.name(`origin ${axis}`)}=${number}`, `old origin, ${axis}`);
  });
  const words = datums.map(({ axis, measured, becomes }) => {
    const origin = { kind: 'variable' as const, name: `origin ${axis}` };
    return `${axis.toUpperCase()}${text.value(plus(minus(origin, becomes), measured))}`;
  });
  return [
    ...comment('Every touch succeeded: the origin moves by what was measured.'),
    ...origins,
    `G10 L2 P${isActive ? text.name('offset number') : system} ${words.join(' ')}`,
  ];
}

/** #4014 is 54 to 59, or 54.1 for the further ones, whose origins stand elsewhere. */
export function macroOffsetKept(
  offset: string,
  text: MacroText,
  alarmIf: (condition: string, text: string) => string,
): string[] {
  const kept = text.name('kept offset');
  const whole = alarmIf(`${kept} NE FIX[${kept}]`, 'use G54 to G59');
  if (offset !== 'active') return [`${kept}=#4014`, whole];
  return [
    `${kept}=#4014`,
    whole,
    remarked(`${text.name('offset number')}=#4014-${firstOffset - 1}`, '1 is G54'),
  ];
}
