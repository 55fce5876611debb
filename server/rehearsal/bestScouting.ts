import type { Analysis } from '../analysis/analysis.ts';
import type { Touch } from '../analysis/model.ts';
import type { Stage } from './rehearse.ts';
import type { RunRecord } from './runRecord.ts';
import { type Scouted, scout } from './scout.ts';

/** What was found out about where a program's part may stand. */
export interface Found {
  readonly scouted: Scouted;
  /** How much of its work the program did there; the higher, the more. */
  readonly rank: number;
  /** It did all of it and complained of nothing. */
  readonly isAllRight: boolean;
  /** Touches that met something. */
  readonly met: number;
}

const half = 0.5;
/** Shares of a touch's travel at which the part may be met, one after the other. */
const shares = Array.from({ length: 181 }, (_, i) => 0.05 + i * 0.005);
/** So many blocks are run in looking for a better share. */
const mostBlocks = 400_000;

/**
 * Scouts with the part at the middle of each touch's travel. Where the program does not do all of its work there, with
 * the part at other shares: it may know its part (a width within limits), and the middle of the shares that it takes for
 * it is best.
 */
export function bestScouting(stage: Stage, analysis: Analysis, radius: number): Found {
  const measures = measuringLines(stage, analysis);
  const datums = new Set([...analysis.datums, ...analysis.elsewhere.datums].map(({ target }) => target)).size;
  const at = (share: number) => judged(scout({ stage, radius, share, measures }), datums);
  const first = at(half);
  let blocks = first.scouted.blocks;
  if (first.isAllRight || first.met === 0 || blocks * 10 > mostBlocks) return first;
  const tried: { readonly share: number; readonly rank: number }[] = [];
  for (const share of shares) {
    const found = at(share);
    tried.push({ share, rank: found.rank });
    blocks += found.scouted.blocks;
    if (blocks > mostBlocks) break;
  }
  const best = Math.max(...tried.map(({ rank }) => rank));
  return best > first.rank ? at(middleOf(tried, best)) : first;
}

/** The middle of the stretch of shares with this rank that is nearest to half-way. */
function middleOf(tried: readonly { readonly share: number; readonly rank: number }[], best: number): number {
  const stretches: number[][] = [];
  for (const [index, { share, rank }] of tried.entries()) {
    if (rank !== best) continue;
    if (tried[index - 1]?.rank === best) stretches.at(-1)?.push(share);
    else stretches.push([share]);
  }
  const middles = stretches.map((stretch) => ((stretch[0] ?? half) + (stretch.at(-1) ?? half)) / 2);
  return middles.reduce((a, b) => (Math.abs(b - half) < Math.abs(a - half) ? b : a), middles[0] ?? half);
}

function judged(scouted: Scouted, datums: number): Found {
  const { record } = scouted;
  const written = new Set(record.written.filter(({ touches }) => touches > 0).map(({ key }) => key)).size;
  const tripped = record.touches.filter((touch) => touch.tripped);
  const lines = new Set(tripped.map(({ line }) => line)).size;
  const endsWell = record.end.kind === 'program-end' && record.collisions.length === 0;
  const messages = Math.min(record.messages.length, 99);
  const rank = (written * 1000 + lines) * 1000 + (endsWell ? 500 : 0) - messages;
  const isAllRight = written >= datums && endsWell && lines > 0 && isQuiet(record);
  return { scouted, rank, isAllRight, met: tripped.length };
}

/** A message that is told where the work is done is none of refusal. */
function isQuiet({ messages, written }: RunRecord): boolean {
  return messages.length === 0 || written.length > 0;
}

/** Lines of the joined program with a touch that something rests on. */
function measuringLines({ program }: Stage, analysis: Analysis): (line: number) => boolean {
  const lines = new Set<string>();
  const take = ({ file, line, reaches }: Touch) => {
    if (reaches.length > 0) lines.add(`${file ?? ''}:${line}`);
  };
  for (const touch of [...analysis.touches, ...analysis.elsewhere.touches]) take(touch);
  return (line) => {
    const elsewhere = program.program.elsewhere(line);
    return lines.has(elsewhere ? `${elsewhere.uri}:${elsewhere.line}` : `:${line}`);
  };
}
