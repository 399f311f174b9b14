/** A label that wants its middle at `at` and takes `size` along the line it is placed on. */
export type Wanted = { readonly at: number; readonly size: number };

/**
 * Middles for labels that share one line from `start` to `end`: none overlaps another, all stay inside, their order is
 * that of the places they want, and the sum of their squared moves is the least possible. A label that has room where
 * it wants to be is not moved. Undefined where the line is too short for all: the last of the list give way.
 *
 * Placing in order with sizes in between is monotone regression: pool neighbours that would overlap at their mean.
 */
export function placeLabels(labels: readonly Wanted[], start: number, end: number): readonly (number | undefined)[] {
  const kept = labels.map((_, index) => index).slice(0, howManyFit(labels, end - start));
  const order = kept.sort((a, b) => labels[a]!.at - labels[b]!.at || a - b);

  // Where each label would put the first one's lower edge, if all before it stood close together.
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

/** How many labels, from the first on, fit into a length. */
function howManyFit(labels: readonly Wanted[], room: number): number {
  let used = 0;
  const over = labels.findIndex(({ size }) => {
    used += size;
    return used > room + 1e-9;
  });
  return over < 0 ? labels.length : over;
}
