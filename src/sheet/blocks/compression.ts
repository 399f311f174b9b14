import { formatNumber } from "../../units/show.ts";
import type { Facts } from "../content.ts";
import { type BlockBuilder, endStages, type SheetStage } from "../context.ts";
import { said, section } from "../section.ts";
import { COMPRESSION_BASIS } from "../words/engine.ts";
import { count } from "../words/text.ts";

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
        ? `${display.digits("volume", chambers.low_m3)} to ${display.full("volume", chambers.high_m3)}, ${count(chambers.n, "chamber")}`
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
  const rows = said<Row>([
    chamber(first),
    afterwards,
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
