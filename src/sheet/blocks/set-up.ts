import type { RoundedRectangle } from "../../model/model.ts";
import { formatNumber } from "../../units/show.ts";
import type { Facts } from "../content.ts";
import { type BlockBuilder, type Context, endStages, type SheetStage } from "../context.ts";
import { formatShortest, sharedDecimals } from "../display.ts";
import { presentItems, section } from "../section.ts";
import { COMPRESSION_BASIS } from "../words/engine.ts";
import { capitalize } from "../words/text.ts";
import { finishWords } from "./valve-train/springs-deck.ts";

/** Chambers as measured, and the compression they give with what the customer stated. */
export const compression: BlockBuilder = (context, place) => {
  const { display } = context;
  const { first, last } = endStages(context);
  type Row = Facts["rows"][number];
  const chamber = (stage: SheetStage | undefined): Row | undefined => {
    const chambers = stage?.figures.chambers;
    if (!stage || !chambers) return undefined;
    const range =
      chambers.n > 1
        ? `${display.digits("volume", chambers.low_m3)} to ${display.full("volume", chambers.high_m3)}, mean of ${chambers.n}`
        : undefined;
    return {
      label: first ? `Chamber, ${stage.name.toLowerCase()}` : "Chamber",
      value: display.full("volume", chambers.mean_m3),
      ...(range ? { note: range } : {}),
    };
  };
  const again = last?.stage.chambersNotRemeasured === true;
  const afterwards: Row | undefined =
    again && last ? { label: `Chamber, ${last.name.toLowerCase()}`, value: "not re-measured" } : chamber(last);
  const measured = again ? first : last;
  const ratio = measured?.figures;
  const span =
    ratio?.compression_ratio_low !== undefined &&
    ratio.compression_ratio_high !== undefined &&
    formatNumber(ratio.compression_ratio_low, 1) !== formatNumber(ratio.compression_ratio_high, 1)
      ? `${formatNumber(ratio.compression_ratio_low, 1)} to ${formatNumber(ratio.compression_ratio_high, 1)}; `
      : "";
  const was = again ? undefined : first?.figures.compression_ratio;
  const rows = presentItems<Row>([
    chamber(first),
    afterwards,
    ratio?.compression_ratio !== undefined && boreRow(context),
    ratio?.compression_ratio !== undefined && {
      label: again && measured ? `Compression, ${measured.name.toLowerCase()}` : "Compression",
      value: `${formatNumber(ratio.compression_ratio, 1)} : 1${was === undefined ? "" : `, was ${formatNumber(was, 1)} : 1`}`,
      note: `${span}${COMPRESSION_BASIS}`,
    },
  ]);
  return section(
    place,
    "Chambers and compression",
    rows.length === 0 ? [] : [{ kind: "facts", compact: true, rows: place.onePage ? rows.slice(-1) : rows }],
  );
};

/** What compression is made from besides the chamber, in the customer's words. */
function boreRow({ model: { engine }, display }: Context): Facts["rows"][number] | undefined {
  if (engine?.bore === undefined || engine.stroke === undefined) return undefined;
  const sizes = [engine.bore, engine.stroke].map((size) => display.number("length", size));
  const decimals = sharedDecimals(display, "length", sizes);
  const value = `${formatNumber(sizes[0]!, decimals)} × ${display.full("length", engine.stroke, decimals)}`;
  return { label: "Bore × stroke", value, note: "as stated" };
}

/** Deck and port openings, which must suit the block, gasket and manifolds. */
export const deckFit: BlockBuilder = (context, place) => {
  const { display } = context;
  const { last } = endStages(context);
  if (!last) return [];
  const { deck, ports } = last.stage;
  type Row = Facts["rows"][number];
  const fact = (label: string, value: number | undefined, note?: string): Row | undefined =>
    value === undefined
      ? undefined
      : { label, value: formatShortest(display, "length", value), ...(note ? { note } : {}) };
  const rectangle = ({ width, height, corner }: RoundedRectangle) =>
    `${formatShortest(display, "length", width)} × ${formatShortest(display, "length", height)}, corner ${formatShortest(display, "length", corner)}`;
  const openings = context.sides.map((side): Row | undefined => {
    const port = ports[side];
    if (!port?.opening) return undefined;
    const matched = port.opening.matchedTo ? `matched to ${port.opening.matchedTo}` : undefined;
    const again = context.stages.length > 1 && port.notRemeasured.includes("opening") ? "not re-measured" : undefined;
    const note = presentItems<string>([matched, again]).join(", ");
    return { label: `${capitalize(side)} opening`, value: rectangle(port.opening), ...(note ? { note } : {}) };
  });
  const rows = presentItems<Row>([
    fact("Deck cut", deck?.cut, "this time"),
    fact("Deck cut before", deck?.cutBefore, "earlier"),
    fact("Deck thickness", deck?.thickness),
    fact("Deck flatness", deck?.flatness),
    deck?.finish !== undefined && { label: "Deck finish", value: finishWords(context, deck.finish) },
    ...openings,
  ]);
  return section(place, "Deck and fit", rows.length === 0 ? [] : [{ kind: "facts", compact: true, rows }]);
};

/** Chambers with the compression they give, and the deck, one under the other. */
export const setUp: BlockBuilder = (context, place) => {
  const { title: _, ...cell } = place.cell;
  const own = { ...place, cell };
  return [...compression(context, own), ...deckFit(context, own)];
};
