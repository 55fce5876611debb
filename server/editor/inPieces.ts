/** Most time for work at a stretch, ms: then whatever has come in meanwhile goes first. */
const atOnce = 10;

/** What work in pieces needs of the world: milliseconds from anywhere, and a pause in which messages are read. */
export interface Pauses {
  now(): number;
  pause(): Promise<void>;
}

/**
 * Does work piece by piece until `piece` says that all is done; what has come in goes first. Settles with false where it
 * was given up, because it was `isWanted` no more.
 */
export async function inPieces(
  { now, pause }: Pauses,
  piece: () => boolean,
  isWanted: () => boolean,
): Promise<boolean> {
  for (;;) {
    await pause();
    if (!isWanted()) return false;
    const end = now() + atOnce;
    do if (piece()) return true;
    while (now() < end);
  }
}
