import { formatNumber } from "../../units/show.ts";
import { springTravelCheck } from "../cautions.ts";
import type { KeyRow } from "../content.ts";
import { type BlockBuilder, type Context, endStages } from "../context.ts";
import { isPhone } from "../phone.ts";
import { presentItems, section } from "../section.ts";
import { countWords } from "../words/text.ts";

type Pair = KeyRow["pairs"][number];

/** Fewer pairs make no row. */
export const FEWEST_PAIRS = 3;

/** What an engine builder looks for first: lift that springs are set up for, compression, chambers, how it is delivered. */
export const keyRow: BlockBuilder = (context, place) => {
  if (context.model.identity.kind === "product") return [];
  const narrow = isPhone(context);
  const pairs = keyPairs(context, narrow);
  return pairs.length < (narrow ? 1 : FEWEST_PAIRS) ? [] : section(place, undefined, [{ kind: "key-row", pairs }]);
};

/** The pairs that the job can fill, in their order; on a narrow page without chambers, and with what compression rests on. */
export function keyPairs(context: Context, narrow = false): readonly Pair[] {
  const { delivered } = context.model.text;
  return presentItems<Pair>([
    springPair(context),
    compressionPair(context, narrow),
    !narrow && chamberPair(context),
    delivered && { label: "Delivered", value: delivered },
  ]);
}

/** The lift that the shop set the springs up for, else what is left to coil bind at the cam's lift. */
function springPair(context: Context): Pair | undefined {
  const { display } = context;
  const travel = springTravelCheck(context);
  if (travel.kind === "set up") return { label: "Set up for valve lift up to", value: travel.lift };
  const springs = endStages(context).last?.figures.springs;
  if (travel.kind === "no room" || springs?.coil_bind_clearance_m === undefined) return undefined;
  const value = display.full("length", springs.coil_bind_clearance_m);
  return { label: `To coil bind at ${display.full("lift", springs.largest_lift_m)} lift`, value, note: "calculated" };
}

function compressionPair(context: Context, narrow: boolean): Pair | undefined {
  const { first, last } = endStages(context);
  if (last?.stage.chambersNotRemeasured || last?.figures.compression_ratio === undefined) return undefined;
  const was = first?.figures.compression_ratio;
  const value = `${formatNumber(last.figures.compression_ratio, 1)} : 1`;
  return {
    label: `Compression, calculated${narrow ? "; gasket and piston as stated" : ""}`,
    value,
    ...(was === undefined ? {} : { note: `was ${formatNumber(was, 1)}` }),
  };
}

function chamberPair(context: Context): Pair | undefined {
  const { display } = context;
  const { last } = endStages(context);
  const chambers = last?.figures.chambers;
  if (!chambers || last?.stage.chambersNotRemeasured) return undefined;
  const range = `${display.digits("volume", chambers.low_m3)} to ${display.digits("volume", chambers.high_m3)}`;
  return {
    label: chambers.n > 1 ? `Chambers, mean of ${chambers.n}` : countWords(chambers.n, "chamber"),
    value: display.full("volume", chambers.mean_m3),
    ...(chambers.n > 1 ? { note: range } : {}),
  };
}
