import type { Part, TableCell } from "../content.ts";
import type { Context } from "../context.ts";
import { EMPTY_CELL } from "../flow-columns.ts";
import { findAtLift, unionOfLifts } from "../lifts.ts";
import { capitalize } from "../words/text.ts";

/** As many lifts as a card has room for. */
const LIFTS = 3;

/** A product's mean flow at three of its lifts, evenly spread up to the highest, with the range over the parts. */
export function sampleLiftTable({ figures: { sample }, sides, display }: Context): readonly Part[] {
  const shown = sides.flatMap((side) => {
    const readings = sample?.[side]?.readings ?? [];
    return readings.length > 0 ? [{ side, readings }] : [];
  });
  const lifts = unionOfLifts(shown.map(({ readings }) => readings));
  if (lifts.length === 0) return [];
  const count = Math.min(LIFTS, lifts.length);
  const spread = Array.from({ length: count }, (_, i) => lifts[Math.ceil(((i + 1) * lifts.length) / count) - 1]!);
  return [
    {
      kind: "table",
      columns: [
        { title: "Lift", unit: display.unit("lift"), align: "decimal" },
        ...shown.flatMap(({ side }) => [
          { title: capitalize(side), unit: display.unit("flow"), align: "decimal" } as const,
          { title: "from – to", align: "left" } as const,
        ]),
      ],
      rows: spread.map((lift): readonly TableCell[] => [
        { text: display.digits("lift", lift) },
        ...shown.flatMap(({ readings }): readonly TableCell[] => {
          const found = findAtLift(readings, lift);
          if (!found) return [EMPTY_CELL, { text: "" }];
          const [low, high] = [found.low_m3_s, found.high_m3_s].map((flow) => display.digits("flow", flow));
          return [{ text: display.digits("flow", found.mean_m3_s), strong: true }, { text: `${low} – ${high}` }];
        }),
      ]),
      rowHeads: true,
      fifths: false,
      notes: [],
    },
  ];
}
