import type { BlockBuilder } from "../context.ts";
import { section } from "../section.ts";

/** A picture's height on the page, at most [pt]. */
const HEIGHT = 220;

/** Photographs, with what they show. */
export const photos: BlockBuilder = ({ model: { text, identity } }, place) =>
  section(
    place,
    "Photographs",
    text.photos.map(({ file, caption }, i) => ({
      kind: "picture",
      image: file,
      alt: `Photograph: ${caption ?? `${identity.title}, picture ${i + 1} of ${text.photos.length}`}`,
      maxHeight: place.cell.height ?? HEIGHT,
      ...(caption ? { caption } : {}),
    })),
  );
