import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { inProcess, ROOT, scratch } from "./run.ts";

const folder = scratch();
writeFileSync(join(folder, "shop.yaml"), readFileSync(join(ROOT, "jobs/alder-lane/shop.yaml")));
const JOB = readFileSync(join(ROOT, "jobs/alder-lane/2026-014.yaml"), "utf8");
const OTHER = readFileSync(join(ROOT, "jobs/alder-lane/2026-019.yaml"), "utf8");
writeFileSync(join(folder, "a.yaml"), JOB);
writeFileSync(join(folder, "other.yaml"), OTHER);
const diff = async (...args: string[]) => {
  const ran = await inProcess(["diff", ...args], folder);
  return { ...ran, out: ran.out.replaceAll("\u00a0", " ") };
};
/** The job with some words replaced; each must be there. */
const revised = (...changes: [string, string][]) => {
  const text = changes.reduce((now, [from, to]) => {
    expect(now).toContain(from);
    return now.replace(from, to);
  }, JOB);
  writeFileSync(join(folder, "b.yaml"), text);
  return diff("a.yaml", "b.yaml");
};

describe("two revisions of a job", () => {
  test("nothing changed", async () => {
    const { code, out } = await diff("a.yaml", "a.yaml");
    expect(code).toBe(0);
    expect(out).toMatch(/\n\nnothing changed\n$/);
  });

  test("a reading is told with both values, and the flow by what it comes to", async () => {
    const { code, out } = await revised(
      ["181.9", "186.9"],
      ["issued: 2026-03-18", "issued: 2026-03-20\nrevision: 2\nreplaces: revision 1\nbecause: a slip"],
    );
    expect(code).toBe(0);
    expect(out).toContain("revision: 2\n");
    expect(out).toContain("issued: 2026-03-18 → 2026-03-20");
    expect(out).toContain("read, intake, cylinder 1, at 0.400 in: 181.9 cfm and 181.2 cfm → 186.9 cfm and 181.2 cfm");
    expect(out).toMatch(/intake flow on average within repeatability|intake flow on average .*within repeatability/);
    expect(out).not.toContain("Ashgrove");
    expect(out).not.toMatch(/gain|loss/);
  });

  test("sizes with both values, as finely as they were typed", async () => {
    const { out } = await revised(["throat: 1.590", "throat: 1.580"], ["flatness: 0.0015", "flatness: 0.0018"]);
    expect(out).toContain("Finished, intake throat: 1.590 in → 1.580 in");
    expect(out).toContain("deck flatness: 0.0015 in → 0.0018 in");
  });

  test("what was set and checked of a valve, springs, limits and what was agreed", async () => {
    const { out } = await revised(
      ["0.0017  held", "0.0012  lost"],
      ["rate: 242 lbf/in", "rate: 250 lbf/in"],
      ["80 lbf, 90", "78 lbf, 90"],
      ["agreed on 16 March", "agreed on 17 March"],
      ["width: 1.20, height", "width: 1.22, height"],
    );
    for (const line of [
      "Finished, 3E runout: 0.0017 in → 0.0012 in",
      "springs rate: 242 lbf/in → 250 lbf/in",
      "least seat force: 80 lbf → 78 lbf",
      "Finished, intake gasket window width: 1.20 in → 1.22 in",
      "− vacuum: Finished, 3E: held",
      "+ vacuum: Finished, 3E: lost",
      "+ agreed: 3 ex: seat renewed, the vacuum held; agreed on 17 March",
    ])
      expect(out.replace(/1\.2([02])0/g, "1.2$1")).toContain(line);
  });

  test("the same size in another unit is no change", async () => {
    expect((await revised(["throat: 1.590", "throat: 40.386 mm"])).out).toContain("nothing changed");
  });

  test("lines added and taken away, and another customer", async () => {
    const { out } = await revised(["Core plugs not disturbed", "Studs left in"], ["H. Ashgrove", "B. Somebody"]);
    expect(out).toContain("− not done: Core plugs not disturbed");
    expect(out).toContain("+ not done: Studs left in");
    expect(out).toContain("customer: H. Ashgrove → B. Somebody");
  });

  test("unlike conditions and a changed verdict are printed", async () => {
    const { out } = await revised([
      "    bench: { leakage: { intake: 0.6",
      "    bench: { test_pressure: 20, bore_fixture: 3.500, leakage: { test_pressure: 25, intake: 0.6",
    ]);
    expect(out).toContain(
      "measured unlike: test pressure 25.0 inH₂O against 20.0 inH₂O; bore fixture 3.425 in against 3.500 in",
    );
    const flat = await revised([
      "      0.300    157.8   119.3".replace("119.3", "119.0"),
      "      0.300    100.0   119.0",
    ]);
    // One wild repeat widens every ±: what was a clear gain no longer is one.
    expect(flat.out).toContain("intake, As received to Finished: clear gain → within repeatability");
  });
});

describe("two jobs", () => {
  test("figures beyond their ±, as another head, and no list of every reading", async () => {
    const { code, out } = await diff("a.yaml", "other.yaml");
    expect(code).toBe(0);
    // Another pressure and another bore under the head: the numbers stand, a verdict does not.
    expect(out).toMatch(/intake flow on average \+\d+\.\d % ± \d+\.\d %, no verdict, conditions differ/);
    expect(out).not.toContain("read, intake");
    expect(out).toContain("Finished → Ports finished");
  });

  test("as JSON, in SI, and turned round it is the other way", async () => {
    const [to, back] = [await diff("a.yaml", "other.yaml", "--json"), await diff("other.yaml", "a.yaml", "--json")].map(
      ({ out }) => JSON.parse(out),
    );
    expect(to).toMatchObject({ same_job: false, from: { number: "2026-014" }, to: { number: "2026-019" } });
    const bore = to.sizes.find((one: { what: string }) => one.what === "bore");
    expect(bore.from).toBeCloseTo(3.4 * 0.0254, 9);
    expect(back.sizes.find((one: { what: string }) => one.what === "bore")).toMatchObject({
      from: bore.to,
      to: bore.from,
    });
    expect(back.lines_added).toEqual(to.lines_removed);
    const peak = (one: typeof to) => one.stages[0].figures[0].changes.at(-1).change_m3_s;
    expect(peak(back)).toBeCloseTo(-peak(to), 9);
  });

  test("a refused or missing job is reported, with exit 1", async () => {
    writeFileSync(join(folder, "bad.yaml"), JOB.replace("throat: 1.590", "throat: wide"));
    const { code, out, err } = await diff("a.yaml", "bad.yaml");
    expect([code, out]).toEqual([1, ""]);
    expect(err).toContain("bad.yaml");
    expect((await diff("a.yaml", "gone.yaml")).code).toBe(1);
  });
});
