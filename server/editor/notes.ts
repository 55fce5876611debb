/**
 * How much is written between the words of a program: `minimal` is what a reader of a touch needs, `all` adds the modes
 * of every moving block and the names of arguments, `off` takes hints and the lines above routines away.
 */
export type NotesLevel = 'off' | 'minimal' | 'all';

/** What a client says under `probewright.notes`, whatever it sends. */
export function notesLevel(said: unknown): NotesLevel {
  return said === 'off' || said === 'all' ? said : 'minimal';
}
