import type { Side } from "../../model/model.ts";
import type { Table, TableCell } from "../content.ts";
import type { BlockBuilder, Context } from "../context.ts";
import { EMPTY_CELL } from "../flow-columns.ts";
import { findAtLift, unionOfLifts } from "../lifts.ts";
import type { SampleReading } from "../sample.ts";
import { paragraph, section } from "../section.ts";
import { conditionWords, formatPressure, sharedSampleWords } from "../words/conditions.ts";
import { monthsMeasured, typicalWords } from "../words/identity.ts";
import { capitalize } from "../words/text.ts";

/** Mean, lowest and highest at each lift, with n: one set of conditions for all parts. */
export const sampleTable: BlockBuilder = (context, place) => {
  const { display, figures, model } = context;
  const sample = figures.sample;
  if (!sample) return [];
  const sides = context.sides.filter((side) => (sample[side]?.readings.length ?? 0) > 0);
  if (sides.length === 0) return [];
  const lifts = unionOfLifts(sides.map((side) => sample[side]?.readings ?? []));
  if (place.cell.span < 6) return section(place, undefined, [narrowTable(context, sides, lifts)]);
  const strip = [
    `reported at ${formatPressure(model.reference.testPressure, display)}`,
    ...sharedSampleWords(model.samples, (bench) => conditionWords(bench, sides, display)),
  ];
  return section(place, undefined, [
    ...paragraph(strip.join(" · "), "caption", `${typicalWords(sample.n)}${monthsMeasured(model.samples)}.`),
    {
      kind: "table",
      columns: [
        { title: "Lift", unit: display.unit("lift"), align: "decimal" },
        ...sides.flatMap(() =>
          ["Mean", "Lowest", "Highest", "n"].map((title) => ({ title, align: "decimal" }) as const),
        ),
      ],
      groups: [
        { text: "", span: 1 },
        ...sides.map((side) => ({ text: `${capitalize(side)} (${display.unit("flow")})`, span: 4 })),
      ],
      rows: lifts.map((lift): TableCell[] => [
        { text: display.digits("lift", lift) },
        ...sides.flatMap((side): TableCell[] => {
          const found = findAtLift(sample[side]?.readings ?? [], lift);
          if (!found) return [EMPTY_CELL, EMPTY_CELL, EMPTY_CELL, EMPTY_CELL];
          return [
            { text: display.digits("flow", found.mean_m3_s), strong: true },
            { text: display.digits("flow", found.low_m3_s) },
            { text: display.digits("flow", found.high_m3_s) },
            { text: String(found.n), quiet: true },
          ];
        }),
      ]),
      rowHeads: true,
      fifths: true,
      notes: [],
    },
  ]);
};

/** For half of a page: mean and range of each side; no range of one part. */
function narrowTable({ display, figures }: Context, sides: readonly Side[], lifts: readonly number[]): Table {
  const sample = figures.sample!;
  const many = sample.n > 1;
  const few = sides.some((side) => sample[side]?.readings.some(({ n }) => n < sample.n));
  const ranged = (found: SampleReading): readonly TableCell[] =>
    many
      ? [
          {
            text: `${display.digits("flow", found.low_m3_s)}–${display.digits("flow", found.high_m3_s)}${found.n < sample.n ? ` (${found.n})` : ""}`,
            quiet: true,
          },
        ]
      : [];
  return {
    kind: "table",
    columns: [
      { title: `Lift (${display.unit("lift")})`, align: "decimal" },
      ...sides.flatMap(() => [
        { title: many ? "mean" : "flow", align: "decimal" } as const,
        ...(many ? [{ title: "range", align: "right" } as const] : []),
      ]),
    ],
    groups: [
      { text: "", span: 1 },
      ...sides.map((side) => ({ text: `${capitalize(side)} (${display.unit("flow")})`, span: many ? 2 : 1 })),
    ],
    rows: lifts.map((lift): TableCell[] => [
      { text: display.digits("lift", lift) },
      ...sides.flatMap((side): readonly TableCell[] => {
        const found = findAtLift(sample[side]?.readings ?? [], lift);
        if (!found) return many ? [EMPTY_CELL, EMPTY_CELL] : [EMPTY_CELL];
        return [{ text: display.digits("flow", found.mean_m3_s), strong: true }, ...ranged(found)];
      }),
    ]),
    rowHeads: true,
    fifths: false,
    notes: few ? [`In brackets: how many of the ${sample.n} parts have that lift.`] : [],
  };
}
