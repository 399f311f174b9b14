import fc from "fast-check";
import type { BarChart, LineChart, Series } from "../../src/sheet/content.ts";
import { niceAxis } from "../../src/sheet/nice-axis.ts";

/** Names as people write them, and as they do not. */
const name = fc.oneof(
  fc.constantFrom("As received", "Finished", "Sample head, second try", ""),
  fc.string({ maxLength: 45, unit: "grapheme" }),
);
const share = fc.double({ min: 0, max: 1, noNaN: true });
const magnitude = fc.constantFrom(1e-6, 0.01, 1, 250, 1e7);
export const sizes = fc.record({
  width: fc.integer({ min: 200, max: 520 }),
  height: fc.integer({ min: 130, max: 320 }),
});

const style: fc.Arbitrary<Series["style"]> = fc.record({
  color: fc.constantFrom("#1f4e5f", "#6b6b6b", "#d55e00", "#0072b2"),
  label: fc.constantFrom("#1f4e5f", "#1a1a1a"),
  width: fc.constantFrom(1, 1.25, 1.75),
  dash: fc.constantFrom([], [5, 2.5], [7, 2, 1.5, 2]),
  marker: fc.constantFrom("circle", "square", "triangle-up", "triangle-down", "diamond", "cross"),
  filled: fc.boolean(),
});

/** Line charts whose readings lie on their axes; curves, error bars and bands may leave them. */
export const lineCharts: fc.Arbitrary<LineChart> = fc
  .record({
    lift: magnitude,
    flow: magnitude,
    negative: fc.boolean(),
    xTicks: fc.integer({ min: 3, max: 9 }),
    yTicks: fc.integer({ min: 3, max: 8 }),
  })
  .chain(({ lift, flow, negative, xTicks, yTicks }) => {
    const x = { title: "Valve lift (mm)", ...niceAxis(0, lift, xTicks) };
    const y = { title: "Flow at the stated pressure (cfm)", ...niceAxis(negative ? -flow : 0, flow, yTicks) };
    const onX = share.map((s) => x.start + s * (x.end - x.start));
    const onY = share.map((s) => y.start + s * (y.end - y.start));
    const wide = fc.double({ min: -0.3, max: 1.3, noNaN: true }).map((s) => y.start + s * (y.end - y.start));
    const points = fc.array(
      fc.record(
        {
          x: onX,
          y: onY,
          kind: fc.constantFrom("good" as const, "doubtful" as const, "noisy" as const),
          plusMinus: share.map((s) => s * flow),
        },
        { requiredKeys: ["x", "y", "kind"] },
      ),
      { maxLength: 12 },
    );
    const rising = <T extends { readonly x: number }>(rows: readonly T[]) => [...rows].sort((a, b) => a.x - b.x);
    const curve = fc
      .array(
        fc.record({
          x: onX,
          y: fc.oneof({ weight: 9, arbitrary: wide }, { weight: 1, arbitrary: fc.constant(Number.NaN) }),
        }),
        { maxLength: 30 },
      )
      .map((rows) => rising(rows).map((row) => [row.x, row.y] as const));
    const band = fc.record({
      label: name,
      points: fc.array(fc.record({ x: onX, low: wide, high: wide }), { minLength: 2, maxLength: 8 }).map(rising),
    });
    const mark = fc.oneof(
      fc.record({ axis: fc.constant("x" as const), at: onX, label: name }),
      fc.record({ axis: fc.constant("y" as const), at: onY, label: name }),
    );
    const series = fc.record({ name, label: name, style, curve, points: points.map(rising) });
    return fc.record(
      {
        kind: fc.constant("line" as const),
        x: fc.constant(x),
        y: fc.constant(y),
        series: fc.array(series, { maxLength: 9 }),
        bands: fc.array(band, { maxLength: 2 }),
        marks: fc.array(mark, { maxLength: 3 }),
        top: fc.record({
          title: name,
          ticks: fc.constant(x.ticks.map((at, i) => ({ at, label: (i / 20).toFixed(2) }))),
        }),
      },
      { requiredKeys: ["kind", "x", "y", "series"] },
    );
  });

/** Bar charts of up to forty categories and three groups. */
export const barCharts: fc.Arbitrary<BarChart> = fc
  .record({
    most: magnitude,
    negative: fc.boolean(),
    categories: fc.uniqueArray(fc.oneof(fc.integer({ min: 0, max: 99 }).map(String), name), { maxLength: 40 }),
    groups: fc.uniqueArray(fc.constantFrom("Intake", "Exhaust", "Some third thing of a rather long name"), {
      maxLength: 3,
    }),
  })
  .chain(({ most, negative, categories, groups }) => {
    const y = { title: "Change (%)", ...niceAxis(negative ? -most : 0, most, 6) };
    const bar = fc.record(
      {
        category: fc.constantFrom(...(categories.length > 0 ? categories : ["none"])),
        group: fc.constantFrom(...(groups.length > 0 ? groups : ["none"])),
        value: share.map((s) => y.start + s * (y.end - y.start)),
        color: fc.constantFrom("#1f4e5f", "#6b6b6b"),
        hollow: fc.boolean(),
        plusMinus: share.map((s) => s * most),
        label: fc.oneof(fc.constantFrom("+4.7", "−12.3", "183"), name),
      },
      { requiredKeys: ["category", "group", "value", "color", "hollow"] },
    );
    return fc.record({
      kind: fc.constant("bar" as const),
      x: fc.constant({ title: "Cylinder", categories }),
      y: fc.constant(y),
      groups: fc.constant(groups),
      bars: fc.array(bar, { maxLength: categories.length > 0 ? 30 : 0 }),
    });
  });
