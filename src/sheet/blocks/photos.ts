import type { BlockBuilder } from "../context.ts";
import { section } from "../section.ts";

/** A picture's height on the page, at most [pt]: two lying ones fill a row, and a standing one is not huge. */
const HEIGHT = 190;

/** Photographs, with what they show. */
export const photos: BlockBuilder = ({ model: { text, identity } }, place) => {
  if (text.photos.length === 0) return [];
  const pictures = text.photos.map(({ file, caption }, i) => ({
    image: file,
    alt: `Photograph: ${caption ?? `${identity.title}, picture ${i + 1} of ${text.photos.length}`}`,
    ...(caption ? { caption } : {}),
  }));
  return section(place, "Photographs", [{ kind: "pictures", pictures, height: place.cell.height ?? HEIGHT }]);
};
