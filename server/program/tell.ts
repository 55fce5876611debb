import { dialects } from '../syntax/dialects.ts';
import { readMessage } from '../syntax/messages.ts';
import type { Block } from '../syntax/tree.ts';
import { choices } from './choices.ts';
import { evaluate, placeOf, type Scope } from './evaluate.ts';
import type { SettingValue } from './execute.ts';
import type { ReadBlock } from './readBlock.ts';
import { scale } from './value.ts';

/** Messages of comments: `(MSG, …)` of NISTIR 6556, 3.3.4, the abort among them. */
export function tellMessages(block: Block, scope: Scope): void {
  if (!scope.world.event) return;
  for (const item of block.items) {
    const message = item.kind === 'comment' ? readMessage(block, item, dialects[scope.dialect]) : null;
    if (message?.command !== 'message' && message?.command !== 'abort') continue;
    const kind = message.command === 'abort' ? 'alarm' : 'message';
    scope.world.event({ kind, text: message.text.trim(), number: null }, placeOf(item, scope), scope.state);
  }
}

/** #3000 and #3006 of the macro family; the comment of the block is their text (common practice, no source). */
export function tellAlarms(settings: readonly SettingValue[], block: Block, scope: Scope): void {
  if (scope.dialect !== 'macro' || !scope.world.event) return;
  for (const { name, value, place } of settings) {
    if (name !== '3000' && name !== '3006') continue;
    const comment = block.items.find((i) => i.kind === 'comment');
    const text = comment?.kind === 'comment' ? comment.text.trim() : '';
    scope.world.event(
      { kind: name === '3000' ? 'alarm' : 'message', text, number: value },
      place,
      scope.state,
    );
  }
}

/** Values that a message, a log or an output command hands out. */
export function tellOutputs(block: Block, scope: Scope): void {
  for (const item of block.items) {
    const parameters =
      item.kind === 'output'
        ? item.parameters
        : item.kind === 'comment'
          ? (readMessage(block, item, dialects[scope.dialect])?.parameters ?? [])
          : [];
    for (const parameter of parameters)
      scope.world.used(evaluate(parameter, scope), 'output', placeOf(item, scope), scope.state);
  }
}

/** G4: P, in the macro family also X or U in seconds. */
export function tellDwell(read: ReadBlock, scope: Scope): void {
  const code = read.codes.find((c) => c.code === 'G4');
  if (!code || !scope.world.event) return;
  const p = read.words.get('P')?.value;
  const inSeconds = choices[scope.dialect].dwell === 'seconds';
  const own = p === undefined ? undefined : inSeconds ? p : scale(p, 1 / 1000);
  const seconds = own ?? read.words.get('X')?.value ?? read.words.get('U')?.value;
  if (seconds !== undefined)
    scope.world.event({ kind: 'dwell', seconds }, placeOf(code.word, scope), scope.state);
}

/** M0, M1, M60 stop behind the motion (Table 8). */
export function tellStops(read: ReadBlock, scope: Scope): void {
  for (const { code, word } of read.codes)
    if (code === 'M0' || code === 'M1' || code === 'M60')
      scope.world.event?.({ kind: 'stop', code }, placeOf(word, scope), scope.state);
}
