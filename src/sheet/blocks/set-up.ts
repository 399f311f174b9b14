import type { BlockBuilder } from "../context.ts";
import { compression } from "./compression.ts";
import { deckFit } from "./deck-fit.ts";
import { springs } from "./springs.ts";

/** Chambers, springs and deck, one under the other, for a column of its own. */
export const setUp: BlockBuilder = (context, place) => {
  const { title: _, ...cell } = place.cell;
  const own = { ...place, cell };
  return [...compression(context, own), ...springs(context, own), ...deckFit(context, own)];
};
