import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { copyJobs, inProcess, scratch } from "../../cli/run.ts";
import { cardOf, demoCard, job, textOf } from "./card-of.ts";

const folder = scratch();

describe("a card", () => {
  test("a long name wraps and keeps its chart; one that leaves no room is refused in plain words", async () => {
    const long = await cardOf(job("Two-valve alloy four with the long inlet ports and the later combustion chamber"));
    expect(long.png).toBeDefined();
    expect(long.diagnostics).toEqual([]);
    expect(long.sheet!.rows.some(({ cells }) => cells[0]!.block.name === "flow-chart")).toBe(true);
    const endless = await cardOf(job("Endless name ".repeat(60).trim()));
    expect(endless.png).toBeUndefined();
    expect(endless.diagnostics.map(({ code }) => code)).toEqual(["card/no-room"]);
  });

  test("says the cam instead of your cam, and shows no other head", async () => {
    const text = textOf(await demoCard("alder-lane/2026-014.yaml"));
    expect(text).toContain("at the cam's lift");
    expect(text).not.toMatch(/your cam/i);
  });

  test("a product: measured on n parts, mean and range", async () => {
    const text = textOf(await demoCard("fennick/fd-16.yaml"));
    expect(text).toContain("Measured on 4 parts");
    expect(text).toContain("105.4");
    expect(text).toContain("104.2 – 106.4");
  });

  test("writes one picture and prints its path", async () => {
    copyJobs(join(folder, "jobs"));
    const ran = await inProcess(["card", "jobs/alder-lane/2026-014.yaml", "--out", "pictures"], folder);
    expect(ran.code).toBe(0);
    expect(ran.out).toBe("pictures/2026-014_rev1_card_two-valve-alloy-four_2026-03-18.png\n");
    expect(readdirSync(join(folder, "pictures"))).toHaveLength(1);
    expect(readFileSync(join(folder, ran.out.trim())).length).toBeLessThan(400_000);
  });

  test("is the same each time", async () => {
    expect(Buffer.compare((await cardOf(job())).png!, (await cardOf(job())).png!)).toBe(0);
  });
});
