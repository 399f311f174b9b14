/** A label with its wanted middle and its size along the line. */
export type LabelRequest = { readonly at: number; readonly size: number };

/**
 * Middles for labels on a line from `start` to `end`: no overlaps, all inside, in the order of their wanted middles, with
 * the least sum of squared moves. A label with room at its wanted middle is not moved. If the line is too short for all,
 * the last of the list are undefined.
 *
 * This is isotonic regression by pooling adjacent violators at their mean.
 */
export function placeLabels(
  labels: readonly LabelRequest[],
  start: number,
  end: number,
): readonly (number | undefined)[] {
  const kept = labels.map((_, index) => index).slice(0, countFitting(labels, end - start));
  const order = kept.sort((a, b) => labels[a]!.at - labels[b]!.at || a - b);

  // Each mean is the lower edge of the first label implied by labels packed without gaps.
  const blocks: { count: number; mean: number }[] = [];
  let offset = 0;
  for (const index of order) {
    const { at, size } = labels[index]!;
    let block = { count: 1, mean: at - size / 2 - offset };
    for (let before = blocks.at(-1); before && before.mean >= block.mean; before = blocks.at(-1)) {
      const count = before.count + block.count;
      block = { count, mean: (before.count * before.mean + block.count * block.mean) / count };
      blocks.pop();
    }
    blocks.push(block);
    offset += size;
  }

  const bases = blocks.flatMap(({ count, mean }) =>
    Array<number>(count).fill(Math.max(start, Math.min(mean, end - offset))),
  );
  const placed = Array<number | undefined>(labels.length).fill(undefined);
  let below = 0;
  for (const [rank, index] of order.entries()) {
    const { size } = labels[index]!;
    placed[index] = bases[rank]! + below + size / 2;
    below += size;
  }
  return placed;
}

/** Number of labels, from the first, that fit a length. */
function countFitting(labels: readonly LabelRequest[], room: number): number {
  let used = 0;
  const over = labels.findIndex(({ size }) => {
    used += size;
    return used > room + 1e-9;
  });
  return over < 0 ? labels.length : over;
}
