import { clipSegment, farFrom, grown, overlap, type Segment } from "./geometry.ts";
import type { Box } from "./scenegraph.ts";

/** What a label should keep off. */
export type Obstacles = { readonly segments: readonly Segment[]; readonly boxes: readonly Box[] };

/** Air kept around a label [pt]. */
const AIR = 1.5;

/** How many obstacles a box, with air around it, touches. */
export function hits(box: Box, { segments, boxes }: Obstacles, air = AIR): number {
  const area = grown(box, air);
  return (
    segments.reduce((count, segment) => count + (!farFrom(segment, area) && clipSegment(segment, area) ? 1 : 0), 0) +
    boxes.reduce((count, other) => count + (overlap(area, other) ? 1 : 0), 0)
  );
}

/** The first of the candidates that touches nothing, else the first of those that touch least. */
export function freeSpot(candidates: readonly Box[], obstacles: Obstacles): Box | undefined {
  let best: { readonly box: Box; readonly count: number } | undefined;
  for (const box of candidates) {
    const count = hits(box, obstacles);
    if (count === 0) return box;
    if (!best || count < best.count) best = { box, count };
  }
  return best?.box;
}
