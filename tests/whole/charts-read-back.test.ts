import { join } from "node:path";
import { expect, test } from "vitest";
import { SIDES } from "../../src/model/model.ts";
import { fromSi } from "../../src/units/convert.ts";
import { readBack } from "../pdf/read-back.ts";
import { demo, kit, makeWhole, ROOT } from "./demo.ts";
import { readPanels } from "./read-panels.ts";

// What a customer measures with a ruler on the page must be what the figures say: read the finished PDF with another
// program's reader, take the scales from the printed tick labels, and put every mark back into numbers.
test.each(["alder-lane/2026-014.yaml", "alder-lane/2026-019.yaml", "fennick/f-231.yaml", "fennick/f-207.yaml"])(
  "%s: every plotted flow reading is read back within 0.3 percent of the figure",
  async (job) => {
    const { pdf, drawable } = await makeWhole(demo(job));
    const { figures, model } = drawable;
    const [page] = await readBack(pdf);
    const panels = readPanels(page!);
    expect(panels.length).toBeGreaterThanOrEqual(2);
    let worst = 0;
    for (const [index, side] of SIDES.entries()) {
      const { marks } = panels[index]!;
      const wanted = figures.stages.flatMap((stage) =>
        stage[side]!.readings.map(({ lift_m, flow_m3_s }) => ({
          x: fromSi(lift_m, "length", model.units.length),
          y: fromSi(flow_m3_s, "flow", model.units.flow),
        })),
      );
      expect(marks.length).toBeGreaterThanOrEqual(wanted.length);
      for (const { x, y } of wanted) {
        const off = Math.min(...marks.map((mark) => Math.max(Math.abs(mark.x / x - 1), Math.abs(mark.y / y - 1))));
        worst = Math.max(worst, off);
      }
    }
    expect(worst).toBeLessThan(0.003);
  },
);

const panels = (job: string) =>
  makeWhole(demo(job), { templates: ["panels"] }, { ...kit, templates: join(ROOT, "tests/whole/templates") });

// The same for panels whose labels stand on their grid lines. Places across are read from labels centred under them.
// Where nothing changed each strip stands under its panel.
test.each([
  ["alder-lane/2026-014.yaml", [0, 1, 2, 3]],
  ["alder-lane/2026-019.yaml", [0, 1, 2, 3]],
  ["fennick/f-231.yaml", [0, 1, 2, 3]],
  ["fennick/f-244.yaml", [0, 2, 1, 3]],
] as const)("%s: flow panels and change strips are read back within 0.4 percent of the panel", async (job, order) => {
  const { pdf, drawable } = await panels(job);
  const { figures, model } = drawable;
  const [page] = await readBack(pdf);
  const read = readPanels(page!);
  expect(read).toHaveLength(4);
  const found = order.map((place) => read[place]!);
  const own = figures.stages.filter(({ repeats }) => repeats === undefined);
  for (const [index, side] of SIDES.entries()) {
    const flows = own.flatMap((stage) =>
      stage[side]!.readings.map(({ lift_m, flow_m3_s }) => ({
        x: fromSi(lift_m, "length", model.units.length),
        y: fromSi(flow_m3_s, "flow", model.units.flow),
      })),
    );
    expect(worstMiss(found[index]!.marks, flows)).toBeLessThan(0.004);
    expect(found[index]!.marks).toHaveLength(flows.length);
    const pair = figures.comparisons.find(
      (one) => one.side === side && one.from.stage === own[0]!.name && one.to.stage === own.at(-1)!.name,
    )!;
    const changes = pair.changes
      .filter(({ interpolated, uncertainty_m3_s }) => !interpolated && uncertainty_m3_s !== undefined)
      .map(({ lift_m, change_ratio }) => ({
        x: fromSi(lift_m, "length", model.units.length),
        y: 100 * change_ratio,
      }));
    expect(worstMiss(found[2 + index]!.marks, changes)).toBeLessThan(0.004);
    expect(found[2 + index]!.marks).toHaveLength(changes.length);
  }
});

type Place = { readonly x: number; readonly y: number };

/** The largest distance of a wanted place from the nearest mark, as a share of the largest values. */
function worstMiss(marks: readonly Place[], wanted: readonly Place[]): number {
  const most = (pick: (place: Place) => number) => Math.max(...wanted.map((place) => Math.abs(pick(place))));
  const [wide, high] = [most(({ x }) => x), most(({ y }) => y)];
  const miss = ({ x, y }: Place) =>
    Math.min(...marks.map((mark) => Math.max(Math.abs(mark.x - x) / wide, Math.abs(mark.y - y) / high)));
  return Math.max(...wanted.map(miss));
}
