import { expect, test } from "vitest";
import type { Port } from "../../src/model/model.ts";
import { type ReadPage, type ReadPath, readBack } from "../pdf/read-back.ts";
import { demo, makeWhole } from "./demo.ts";

// With a ruler on the finished page: PDF 32000-1, 8.3.2.3: a unit of user space is 1/72 of an inch, so 25.4 mm are 72.
const MM = 25.4 / 72;
const ACCURACY = 0.1;

const extent = ({ points }: ReadPath, axis: 0 | 1) => {
  const along = points.map((point) => point[axis] * MM);
  return { from: Math.min(...along), to: Math.max(...along), size: Math.max(...along) - Math.min(...along) };
};
const wide = (path: ReadPath) => extent(path, 0).size;
const high = (path: ReadPath) => extent(path, 1).size;
const isAbout = (value: number, wanted: number) => Math.abs(value - wanted) <= ACCURACY;

/** Paths of a page of this stroke, from the top left. */
const stroked = (page: ReadPage, width: number) => page.paths.filter(({ stroke }) => stroke?.width === width);

/** Whether a path of this width and height is drawn. */
const drawn = (page: ReadPage, width: number, height: number, stroke: number) =>
  stroked(page, stroke).some((path) => isAbout(wide(path), width * 1000) && isAbout(high(path), height * 1000));

/** Each job made and read once. */
const made = new Map<string, ReturnType<typeof make>>();
async function make(job: string) {
  const { pdf, drawable } = await makeWhole(demo(job), { templates: ["engine"] });
  return { pages: await readBack(pdf), model: drawable.model };
}
const engineSheet = (job: string) => {
  if (!made.has(job)) made.set(job, make(job));
  return made.get(job)!;
};

const jobs = [
  { job: "fennick/f-231.yaml", bar: 20, label: "20 mm" },
  { job: "alder-lane/2026-014.yaml", bar: 25.4, label: "1 in" },
] as const;

test.each(jobs)(
  "$job: every drawing measures what the job states, to a tenth of a millimetre",
  async ({ job, bar, label }) => {
    const { pages, model } = await engineSheet(job);
    const page = pages.find(({ texts }) => texts.some(({ text }) => text === "Valve, seat and throat"))!;
    const stage = model.stages.at(-1)!;

    const labels = page.texts.filter(({ text }) => text === label || text === label.replace(" ", "\u00a0"));
    expect(labels.length).toBeGreaterThanOrEqual(4);
    for (const { x, y } of labels) {
      const at = stroked(page, 0.75).find(
        (path) =>
          isAbout(high(path), 0) &&
          Math.abs(path.points[0]![1] - y) < 1 &&
          x - path.points[1]![0] > 0 &&
          x - path.points[1]![0] < 10,
      )!;
      expect(isAbout(wide(at), bar), `a bar of ${wide(at)} mm`).toBe(true);
    }

    // From the left: the intake's section, then the exhaust's.
    const faces = stroked(page, 1.75).filter((path) => path.points.length === 2);
    const middle = page.width / 2;
    for (const [side, here] of [
      ["intake", faces.filter(({ points }) => points[0]![0] < middle)],
      ["exhaust", faces.filter(({ points }) => points[0]![0] >= middle)],
    ] as const) {
      const port = stage.ports[side] as Port;
      const { head, stem } = port.valves[0]!;
      const seat = port.seat!;
      const lift = model.engine!.cams[side]!.netLift * 1000;
      expect(here).toHaveLength(4);
      const byHeight = here.toSorted((a, b) => extent(a, 1).from - extent(b, 1).from);
      const [seatLeft, seatRight] = byHeight.slice(0, 2).toSorted((a, b) => extent(a, 0).from - extent(b, 0).from) as [
        ReadPath,
        ReadPath,
      ];
      const [valveLeft, valveRight] = byHeight.slice(2).toSorted((a, b) => extent(a, 0).from - extent(b, 0).from) as [
        ReadPath,
        ReadPath,
      ];
      expect(isAbout(extent(valveRight, 0).to - extent(valveLeft, 0).from, head * 1000)).toBe(true);
      expect(isAbout(extent(valveRight, 1).from - extent(seatRight, 1).from, lift)).toBe(true);
      for (const face of here) expect(isAbout(Math.hypot(wide(face), high(face)), seat.width! * 1000)).toBe(true);
      expect(Math.atan2(high(seatLeft), wide(seatLeft))).toBeCloseTo(seat.angle, 2);
      // Upright solid lines: both sides of the stem.
      const uprights = stroked(page, 1).filter(
        (path) =>
          path.points.length === 2 &&
          isAbout(wide(path), 0) &&
          path.points[0]![0] < middle === (side === "intake") &&
          high(path) > 3,
      );
      const xs = uprights.map(({ points }) => points[0]![0] * MM);
      expect(isAbout(Math.max(...xs) - Math.min(...xs), stem! * 1000)).toBe(true);
      // Bottom cuts run from the seat's inner edge to the throat: their inner ends are the throat apart.
      const cuts = stroked(page, 1).filter(
        (path) =>
          [seatLeft, seatRight].some((face) =>
            path.points[0]!.every((value, axis) => face.points.some((point) => Math.abs(point[axis]! - value) < 0.02)),
          ) &&
          wide(path) > 0.1 &&
          extent(path, 1).from < extent(seatLeft, 1).from,
      );
      expect(cuts).toHaveLength(2);
      const ends = cuts.map(({ points }) => points.at(-1)![0] * MM);
      expect(isAbout(Math.max(...ends) - Math.min(...ends), port.throat! * 1000)).toBe(true);

      for (const [i, one] of model.stages.entries()) {
        const { width, height } = one.ports[side]!.pinch!.shape!;
        expect(
          pages.some((each) => drawn(each, width, height, i === model.stages.length - 1 ? 1.75 : 1)),
          `${side} pinch ${one.name}`,
        ).toBe(true);
      }
    }
  },
);

test("f-231: bore, valves and distances in plan", async () => {
  const { pages, model } = await engineSheet("fennick/f-231.yaml");
  const page = pages.find(({ texts }) => texts.some(({ text }) => text === "Chamber in plan"))!;
  const { layout, ports } = model.stages.at(-1)!;
  const bore = model.engine!.bore!;
  const circle = stroked(page, 1).find((path) => isAbout(wide(path), bore * 1000) && isAbout(high(path), bore * 1000))!;
  const origin = [extent(circle, 0).from + bore * 500, extent(circle, 1).from + bore * 500] as const;
  for (const side of ["intake", "exhaust"] as const) {
    const { head } = ports[side]!.valves[0]!;
    for (const [x, y] of layout![side]) {
      const centred = stroked(page, 1.75).filter(
        (path) =>
          isAbout(extent(path, 0).from + wide(path) / 2 - origin[0], x * 1000) &&
          isAbout(extent(path, 1).from + high(path) / 2 - origin[1], -y * 1000),
      );
      expect(centred).toHaveLength(1);
      // An inclined disc in plan: its diameter one way, times the cosine of its angle the other.
      expect(isAbout(wide(centred[0]!), head * 1000 * Math.cos((20 * Math.PI) / 180))).toBe(true);
      expect(isAbout(high(centred[0]!), head * 1000)).toBe(true);
    }
  }
  const words = page.texts.map(({ text }) => text.replaceAll("\u00a0", " "));
  // Hand calculation: 2 × 17.9 − 34.0 = 1.8; 2 × 15.3 − 28.5 = 2.1.
  expect(words[words.indexOf("Intake to intake") + 1]).toBe("1.8 mm");
  expect(words[words.indexOf("Exhaust to exhaust") + 1]).toBe("2.1 mm");
  expect(words.join(" ")).not.toMatch(/clearance/i);
});
