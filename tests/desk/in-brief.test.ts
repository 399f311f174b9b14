import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { entryOf } from "../../src/desk/shelf/entry-of.ts";
import { SHELF_LIFTS } from "../../src/desk/shelf/work-out-share.ts";
import type { Pascals } from "../../src/units/quantity.ts";
import { inBrief, workOut, workOutInBrief } from "../../src/work-out.ts";
import { archive } from "../archive/archive.ts";
import { memoryWorld } from "../project/memory-world.ts";

const filed = archive(130, 3);
const asked = { testPressure: 6974.489 as Pascals, reportLifts: SHELF_LIFTS, pictures: false } as const;

/** A folder of the demo jobs, with all that stands in it. */
const demo = (shop: string): Record<string, Uint8Array> =>
  Object.fromEntries(
    readdirSync(join("jobs", shop), { recursive: true, withFileTypes: true })
      .filter((one) => one.isFile())
      .map((one) => {
        const path = join(one.parentPath, one.name);
        return [path.slice(join("jobs", shop).length + 1), readFileSync(path)];
      }),
  );

/** Each job of a folder as the shelf has it, and as all its figures would have it. */
function bothWays(files: Readonly<Record<string, string | Uint8Array>>) {
  const io = memoryWorld(Object.fromEntries(Object.entries(files).map(([path, text]) => [`/j/${path}`, text])));
  const jobs = Object.keys(files).filter((path) => path.endsWith(".yaml") && !/shop|templates/.test(path));
  return jobs.map((path) => ({
    brief: entryOf(path, workOutInBrief(path, asked, io, "/j")),
    whole: entryOf(path, inBrief(workOut(path, asked, io, "/j"))),
  }));
}

describe("the figures of the shelf are those of the sheet, to the last bit", () => {
  test("of an archive, its broken jobs and products as well", () => {
    const both = bothWays(filed);
    for (const { brief, whole } of both) expect(brief).toEqual(whole);
    expect(both.filter(({ brief }) => brief.refused).length).toBeGreaterThan(0);
    expect(both.filter(({ brief }) => brief.intake?.latest_change).length).toBeGreaterThan(50);
    expect(both.some(({ brief }) => brief.kind === "product" && brief.sample)).toBe(true);
  });

  test.each(["alder-lane", "fennick"])("of the demo jobs of %s", (shop) => {
    const both = bothWays(demo(shop));
    expect(both.length).toBeGreaterThan(2);
    for (const { brief, whole } of both) expect(brief).toEqual(whole);
  });

  test("of odd jobs, of which the sheet says much and the shelf nothing", () => {
    const text = Object.values(filed).find((one) => one.includes("name: Finished") && one.includes("stages:"))!;
    const odd = text
      .replace(/issued: .*/, "issued: 2001-01-02")
      .replace('name: "', 'name: "Certified ')
      .replace("stages:", "engine: { intake_cam: { net_lift: 0.400 in, duration: 228 deg, at: 0.050 in } }\nstages:")
      .replace(/\nengine: \{ cylinders.*/, "");
    const io = memoryWorld({ "/j/shop.yaml": filed["shop.yaml"]!, "/j/odd.yaml": odd });
    const whole = workOut("odd.yaml", asked, io, "/j");
    const brief = workOutInBrief("odd.yaml", asked, io, "/j");
    const codes = whole.diagnostics.map(({ code }) => code);
    expect(codes).toEqual(expect.arrayContaining(["job/date-order", "job/certificate-word", "job/cam-without-of"]));
    expect(brief.diagnostics).toEqual([]);
    expect(entryOf("odd.yaml", brief)).toEqual(entryOf("odd.yaml", inBrief(whole)));
  });

  test("of jobs that no valve could be, or that are too strict for their own stages", () => {
    const text = Object.values(filed).find(
      (one) => one.includes("name: Finished") && one.includes("flow: cfm") && one.includes("name: As received"),
    )!;
    const harmed = {
      leaking: text.replace("bench: {", "bench: { leakage: { intake: 900 cfm, exhaust: 900 cfm },"),
      mighty: text.replaceAll(
        /^( {6}[\d.]+ {2})([\d.]+)/gm,
        (_, lift, flow) => `${lift}${(Number(flow) * 3).toFixed(1)}`,
      ),
      strict: text.replace(/report: .*\n/, "").replace("stages:", "report: { strict: true }\nstages:"),
      unlike: text
        .replace(/report: .*\n/, "")
        .replace("stages:", "report: { strict: true }\nstages:")
        .replace("  - name: Finished\n", "  - name: Finished\n    bench: { bore_fixture: 3.1 in }\n"),
    };
    const files = Object.fromEntries(Object.entries(harmed).map(([name, one]) => [`${name}.yaml`, one]));
    const both = bothWays({ "shop.yaml": filed["shop.yaml"]!, ...files });
    for (const { brief, whole } of both) expect(brief).toEqual(whole);
    expect(both.map(({ brief }) => brief.refused?.code)).toEqual([
      "figures/below-leakage",
      "figures/curtain-over-ideal",
      undefined,
      "figures/unlike-conditions",
    ]);
  });
});
