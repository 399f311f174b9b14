import { exceeds, isOutside } from "../math/limits.ts";
import { keyPlace, type StageRule } from "./check-input.ts";

const SPREAD = 0.01;
const CLEARANCE = 0.04 * 0.0254;
const COMPRESSION = { low: 6, high: 15 } as const;

/** Finished chambers more than 1 % apart. @source common practice */
export const chamberSpread: StageRule = ({ stage, figures, delivered, index, source, format }) => {
  const { chambers } = figures;
  if (chambers === undefined || !delivered || stage.chambersNotRemeasured) return [];
  const spread = (chambers.high_m3 - chambers.low_m3) / chambers.mean_m3;
  if (!exceeds(spread, SPREAD)) return [];
  return [
    {
      code: "figures/chamber-spread",
      message: `${stage.name}: chambers from ${format.volume(chambers.low_m3)} to ${format.volume(chambers.high_m3)} are ${format.percent(spread)} apart`,
      hint: "measure the odd one again; cut chambers or valves to match",
      ...keyPlace(source, ["stages", index, "chambers"]),
    },
  ];
};

/** Less than 0.040 in to coil bind, or from retainer to seal, at the largest lift. @source common practice */
export const springClearance: StageRule = ({ figures, source, format }) => {
  const { springs } = figures;
  if (springs === undefined) return [];
  const gaps = [
    { what: "to coil bind", gap: springs.coil_bind_clearance_m, key: "coil_bind" },
    { what: "between retainer and seal", gap: springs.retainer_clearance_m, key: "retainer_to_seal" },
  ];
  const small = gaps.flatMap(({ gap, ...one }) =>
    gap !== undefined && exceeds(CLEARANCE * 1000, gap * 1000) ? [{ ...one, gap }] : [],
  );
  const [first] = small;
  if (first === undefined) return [];
  const what = small.map((one) => `${format.length(one.gap)} ${one.what}`).join(" and ");
  return [
    {
      code: "figures/spring-clearance",
      message: `springs: ${what} at ${format.lift(springs.largest_lift_m)} of lift, less than ${format.length(CLEARANCE)}`,
      hint: "check installed height, spring and seal against the cam before it runs",
      ...keyPlace(source, ["springs", first.key]),
    },
  ];
};

/** A compression ratio outside 6–15. @source common practice */
export const compressionRange: StageRule = ({ stage, figures, index, source, format }) => {
  const { compression_ratio_low: low, compression_ratio_high: high } = figures;
  const odd = [low, high].find((ratio) => ratio !== undefined && isOutside(ratio, COMPRESSION.low, COMPRESSION.high));
  if (odd === undefined) return [];
  return [
    {
      code: "figures/compression",
      message: `${stage.name}: a compression ratio of ${format.ratio(odd)}, outside 6–15`,
      hint: "check chamber, gasket, piston and deck: dish or dome, below or above, and the units",
      ...keyPlace(source, ["stages", index, "chamber"], ["stages", index, "chambers"], ["engine"]),
    },
  ];
};
