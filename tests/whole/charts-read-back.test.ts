import { expect, test } from "vitest";
import { SIDES } from "../../src/model/model.ts";
import { fromSi } from "../../src/units/convert.ts";
import { readBack } from "../pdf/read-back.ts";
import { demo, makeWhole } from "./demo.ts";
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
