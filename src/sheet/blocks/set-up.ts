import type { BlockBuilder } from "../context.ts";
import { compression } from "./compression.ts";
import { deckFit } from "./deck-fit.ts";

/** Chambers with the compression they give, and the deck, one under the other. */
export const setUp: BlockBuilder = (context, place) => {
  const { title: _, ...cell } = place.cell;
  const own = { ...place, cell };
  return [...compression(context, own), ...deckFit(context, own)];
};
