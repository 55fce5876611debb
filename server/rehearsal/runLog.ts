import type { Collision, DatumWritten, RunEnd, Told, TouchRecord } from './runRecord.ts';

/** What a run writes down as it goes. */
export class RunLog {
  readonly touches: TouchRecord[] = [];
  readonly collisions: Collision[] = [];
  readonly messages: Told[] = [];
  readonly stops: number[] = [];
  readonly written: DatumWritten[] = [];
  /** Lines that kept a coordinate of a touch that met nothing. */
  readonly kept: number[] = [];
  readonly cautions = new Set<string>();
  /** What was to go wrong and had no occasion to so far. */
  readonly waiting = new Set<string>();
  seconds = 0;
  ended: RunEnd | null = null;

  /** The first end counts. */
  end(end: RunEnd): void {
    this.ended ??= end;
  }

  alarm(line: number, text: string): void {
    this.end({ kind: 'alarm', line, text });
  }

  notFollowed(line: number, text: string): void {
    this.end({ kind: 'not-followed', line, text });
  }

  collide(collision: Collision): void {
    this.collisions.push(collision);
    this.end({ kind: 'collision', line: collision.line });
  }
}
