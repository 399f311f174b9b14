import type { RoundedRectangle } from "../../model/model.ts";
import type { Facts } from "../content.ts";
import { type BlockBuilder, endStages } from "../context.ts";
import { tidy } from "../display.ts";
import { said, section } from "../section.ts";
import { capital } from "../words/text.ts";

/** Deck and port faces: what the head must fit. */
export const deckFit: BlockBuilder = (context, place) => {
  const { display } = context;
  const { last } = endStages(context);
  if (!last) return [];
  const { deck, ports } = last.stage;
  type Row = Facts["rows"][number];
  const fact = (label: string, value: number | undefined, note?: string): Row | undefined =>
    value === undefined ? undefined : { label, value: tidy(display, "length", value), ...(note ? { note } : {}) };
  const rectangle = ({ width, height, corner }: RoundedRectangle) =>
    `${tidy(display, "length", width)} × ${tidy(display, "length", height)}, corner ${tidy(display, "length", corner)}`;
  const openings = context.sides.map((side): Row | undefined => {
    const port = ports[side];
    if (!port?.opening) return undefined;
    const matched = port.opening.matchedTo ? `matched to ${port.opening.matchedTo}` : undefined;
    const again = context.stages.length > 1 && port.notRemeasured.includes("opening") ? "not re-measured" : undefined;
    const note = said<string>([matched, again]).join(", ");
    return { label: `${capital(side)} opening`, value: rectangle(port.opening), ...(note ? { note } : {}) };
  });
  const rows = said<Row>([
    fact("Deck cut", deck?.cut, "this time"),
    fact("Deck cut before", deck?.cutBefore, "earlier"),
    fact("Deck thickness", deck?.thickness),
    fact("Deck flatness", deck?.flatness),
    ...openings,
  ]);
  return section(place, "Deck and fit", rows.length === 0 ? [] : [{ kind: "facts", compact: true, rows }]);
};
