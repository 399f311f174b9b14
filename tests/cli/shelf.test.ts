import {
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import type { ShelfEntry } from "../../src/commands/shelf/shelf-entry.ts";
import { formatShelf } from "../../src/commands/shelf/shelf-text.ts";
import { disk } from "../../src/io/disk.ts";
import { IMPERIAL } from "../../src/model/display-units.ts";
import { archive } from "../archive/archive.ts";
import { writeArchive } from "../archive/write-archive.ts";
import { inProcess, scratch } from "./run.ts";

const folder = scratch();
const JOBS = 24;
const cacheOf = (place: string) => join(place, "jobs", ".headsheet", "shelf.jsonl");
const shelf = (...args: string[]) => inProcess(["shelf", ...args], folder);
const json = async (...args: string[]) => JSON.parse((await shelf("--json", ...args)).out).jobs;

beforeAll(async () => {
  writeArchive(join(folder, "jobs"), JOBS);
  await shelf("--json");
}, 60_000);

describe("a shelf of many jobs", () => {
  test("lists every one once, sound or refused, and exits with 1 for those that are refused", async () => {
    const { code, err, out } = await shelf("--json");
    const { jobs, reference } = JSON.parse(out);
    expect(jobs.map(({ file }: { file: string }) => file)).toEqual(
      Object.keys(archive(JOBS))
        .filter((path) => path !== "shop.yaml")
        .toSorted(),
    );
    const refused = jobs.filter((one: { refused?: unknown }) => one.refused);
    expect(refused.length).toBeGreaterThan(0);
    expect(refused[0].refused).toMatchObject({ code: expect.stringContaining("/"), line: expect.any(Number) });
    expect(code).toBe(1);
    expect(err).toBe(`${JOBS - refused.length} jobs, ${refused.length} refused\n`);
    expect(reference.test_pressure_Pa).toBeCloseTo(28 * 249.08891, 3);
  });

  test("names no customer, in no form", async () => {
    for (const form of [[], ["--json"], ["--csv"]]) {
      const { out } = await shelf(...form);
      for (const name of ["Ashgrove", "Marsh", "Pell", "Tansley", "Hollin", "Rook", "Quill"])
        expect(out).not.toContain(name);
    }
    expect(readFileSync(cacheOf(folder), "utf8")).not.toContain("Ashgrove");
  });

  test("its figures are those of `figures`, at the pressure asked for", async () => {
    const [first] = await json("--where", "number=2009-0002");
    const { out } = await inProcess(["figures", "jobs/2009/2009-0002.yaml", "--json"], folder);
    const figures = JSON.parse(out);
    const last = figures.stages.at(-1);
    expect(first.intake.peak).toEqual(last.intake.peak);
    const change = figures.comparisons.find((one: { to: { stage: string } }) => one.to.stage === last.name);
    expect(first.intake.latest_change).toMatchObject({
      ratio: change.mean_change_ratio,
      verdict: change.mean_change_verdict,
    });
    mkdirSync(join(folder, "one"));
    writeFileSync(join(folder, "one/2.yaml"), archive(JOBS)["2009/2009-0002.yaml"]!);
    const peak = async (pressure: string) =>
      JSON.parse((await shelf("one", "--json", "--pressure", pressure)).out).jobs[0].intake.peak.flow_m3_s;
    // The square-root rule: four times the pressure is twice the flow.
    expect((await peak("112 inH2O")) / (await peak("28 inH2O"))).toBeCloseTo(2, 9);
  });

  test("a coefficient is there only where the readings reach 0.25 lift ÷ diameter", async () => {
    let [with_, without] = [0, 0];
    for (const one of await json())
      for (const side of [one.intake, one.exhaust]) {
        if (!side?.valve_diameter_m || one.kind === "product") continue;
        const reached = side.peak.lift_m >= 0.25 * side.valve_diameter_m;
        expect(side.curtain_coefficient_at_quarter !== undefined).toBe(reached);
        reached ? with_++ : without++;
      }
    expect(Math.min(with_, without)).toBeGreaterThan(0);
  });

  test("sorted and filtered", async () => {
    const some = (
      await json("--where", "intake.valve>=42mm", "--where", "head~alloy", "--sort", "intake.peak:desc")
    ).filter((one: { refused?: unknown }) => !one.refused);
    expect(some.length).toBeGreaterThan(1);
    const peaks = some.map((one: { intake: { peak: { flow_m3_s: number } } }) => one.intake.peak.flow_m3_s);
    expect(peaks).toEqual(peaks.toSorted((a: number, b: number) => b - a));
    expect(some.every((one: { head: string }) => /alloy/i.test(one.head))).toBe(true);
    expect((await shelf("--where", "intake.valv>1")).code).toBe(2);
    expect((await shelf("nowhere")).code).toBe(2);
  });

  test("as CSV every key is a column, a row a job", async () => {
    const { out } = await shelf("--csv", "--units", "metric");
    const rows = out.trimEnd().split("\n");
    expect(rows).toHaveLength(JOBS + 1);
    expect(rows[0]).toContain("intake.peak (l/s)");
  });
});

describe("on a terminal", () => {
  const table = (entries: readonly ShelfEntry[], width?: number) => formatShelf(entries, IMPERIAL, 6974, width);

  test("says that nothing is there to show, and on a terminal names some of those refused", async () => {
    const refused = Array.from({ length: 12 }, (_, k) => ({
      file: `${k}.yaml`,
      refused: { code: "job/zero", text: "the valve is zero", line: 7 },
    }));
    const whole = table(refused);
    expect(whole).toMatch(/^No job to show\.\n\nrefused, with the first fault:\n {2}0\.yaml:7: the valve is zero\n/);
    expect(whole).toMatch(/ {2}11\.yaml:7: [^\n]*\n$/);
    expect(table(refused, 80)).toMatch(/ {2}9\.yaml:7: [^\n]*\n {2}and 2 more: --csv has all\n$/);
    expect(table(refused.slice(0, 10), 80)).not.toContain("more");
  });

  test.each([60, 80, 100, 132])("of %i columns no line is wider, and no number is cut", async (width) => {
    const entries = await json();
    const text = table(entries, width);
    const rows = text.split("\n\nrefused")[0]!.split("\n");
    expect(Math.max(...rows.map((line) => [...line].length))).toBeLessThanOrEqual(width);
    for (const line of rows) expect(line).not.toMatch(/\d…/);
    const peaks = entries.flatMap(
      (one: { intake?: { peak?: { flow_m3_s: number } } }) => one.intake?.peak?.flow_m3_s ?? [],
    );
    for (const peak of peaks) expect(text).toContain(` ${(peak / 4.719474432e-4).toFixed(1)}`);
  });
});

describe("near", () => {
  test("ranks like heads first, says why, and its lines make a sheet's comparison", async () => {
    const { out, code } = await shelf("--near", "jobs/2009/2009-0002.yaml", "--most", "5");
    expect(code).toBe(1); // a job of this archive is refused; the ranking is there all the same
    expect(out).toMatch(/1\. \S+ {2}Four-valve twin-cam four/);
    expect(out).not.toMatch(/\d\. 2009-0002 /);
    const lines = out.split("compare:\n")[1]!;
    expect(lines).toMatch(/^ {2}- \{ job: \S+\.yaml, stage: /);
    const path = join(folder, "jobs/2009/2009-0002.yaml");
    const before = readFileSync(path, "utf8");
    writeFileSync(path, `${before}compare:\n${lines}`);
    const checked = await inProcess(["check", "jobs/2009/2009-0002.yaml"], folder);
    writeFileSync(path, before);
    expect(checked.code, checked.err).toBe(0);
  });

  test("a job that does not allow it is ranked with the reason, and has no line", async () => {
    const { near } = JSON.parse((await shelf("--near", "jobs/2009/2009-0002.yaml", "--json", "--most", "50")).out);
    const distances = near.map((one: { distance: number }) => one.distance);
    expect(distances).toEqual(distances.toSorted((a: number, b: number) => a - b));
    for (const { job, compare } of near) {
      expect("line" in compare).toBe(job.kind === "job" && job.may_compare === "yes");
      if ("why" in compare) expect(compare.why.length).toBeGreaterThan(5);
    }
  });
});

describe("the cache", () => {
  const place = scratch();
  const jobs = join(place, "jobs");
  const run = (...more: string[]) => inProcess(["shelf", "--json", ...more], place);
  /** The cached result equals a fresh evaluation after any change. */
  const holds = async () => {
    const kept = await run();
    expect(kept.out).toBe((await run("--no-cache")).out);
    return kept.out;
  };
  const READINGS = "lift,intake,exhaust\n2,30,25\n4,60,50\n6,80,65\n";
  const JOB = `job: "1"
issued: 2026-01-01
customer: { name: A }
head: { name: One }
units: { length: mm, flow: cfm, pressure: inH2O }
bench: { test_pressure: 28 }
stages:
  - { name: Finished, intake: { valve: 42 }, runs: [ { file: a.csv } ] }
`;

  test("is never wrong after any change, whatever is harmed", async () => {
    mkdirSync(jobs);
    writeFileSync(join(jobs, "1.yaml"), JOB);
    const refused = await holds();
    expect(refused).toContain("project/file-missing");
    writeFileSync(join(jobs, "a.csv"), READINGS);
    const sound = await holds();
    expect(sound).toContain("peak");

    writeFileSync(join(jobs, "a.csv"), READINGS.replace("80", "81"));
    expect(await holds()).not.toBe(sound);
    writeFileSync(join(jobs, "shop.yaml"), "report: { hold_back: [ pinch ] }\n");
    expect(await holds()).toContain("hold_back");
    rmSync(join(jobs, "shop.yaml"));
    expect(await holds()).not.toContain("hold_back");
    writeFileSync(join(jobs, "2.yaml"), JOB.replace('"1"', '"2"'));
    expect(await holds()).toContain("2.yaml");
    rmSync(join(jobs, "1.yaml"));
    expect(await holds()).not.toContain("1.yaml");

    writeFileSync(join(jobs, "3.yaml"), JOB.replace('"1"', '"3"'));
    await holds();
    const whole = readFileSync(cacheOf(place), "utf8");
    const [checksum, ...entries] = whole.split("\n");
    const harmed = [
      ...[
        "",
        "{}",
        "\n",
        "\n\n\n",
        "\u0000".repeat(99),
        `${checksum}\n`,
        `${checksum}\n${entries[0]}\n`,
        entries.join("\n"),
      ],
      ...[whole.slice(0, -9), `${whole}null\n`, whole.replace("One", "Two"), whole.replace('"peak"', '"peek"')],
      ...[[checksum, ...entries.toReversed()].join("\n"), whole.replace('"compared":[', '"compared":{')],
      ...[whole.replaceAll(":0.0", ":0.1"), [checksum, ...entries.map(() => "{}")].join("\n")],
    ];
    expect(new Set([...harmed, whole]).size).toBe(harmed.length + 1);
    for (const one of harmed) {
      writeFileSync(cacheOf(place), one);
      expect(await holds()).toContain("One");
      expect(readFileSync(cacheOf(place), "utf8")).toBe(whole);
    }
    // Another program's, and what is no plain file, or may not be one.
    await inProcess(["shelf", "--json"], place, disk, "", "9.9.9");
    expect(readFileSync(cacheOf(place), "utf8")).not.toBe(whole);
    await holds();
    expect(readFileSync(cacheOf(place), "utf8")).toBe(whole);
    renameSync(cacheOf(place), join(place, "elsewhere"));
    symlinkSync(join(place, "elsewhere"), cacheOf(place));
    await holds();
    rmSync(join(jobs, ".headsheet"), { recursive: true });
    writeFileSync(join(jobs, ".headsheet"), "");
    await holds();
    rmSync(join(jobs, ".headsheet"));
  });

  test("sees any change of what a job is made from, were size and times of the file as before", async () => {
    const own = scratch();
    const at = (name: string) => join(own, "jobs", name);
    const look = async (...more: string[]) => (await inProcess(["shelf", "--json", ...more], own)).out;
    const shows = async (change: () => void) => {
      const before = await look();
      change();
      const now = await look();
      expect(now).toBe(await look("--no-cache"));
      expect(now).not.toBe(before);
      expect(await look()).toBe(now);
      return now;
    };
    const write = (name: string, text: string) => () => writeFileSync(at(name), text);
    /** Another text of equal length, with the times of the one before. */
    const slipIn = (name: string, from: string, to: string) => () => {
      const { atime, mtime } = statSync(at(name));
      expect(from).toHaveLength(to.length);
      const text = readFileSync(at(name), "utf8");
      expect(text).toContain(from);
      writeFileSync(at(name), text.replace(from, to));
      utimesSync(at(name), atime, mtime);
    };
    mkdirSync(at("far"), { recursive: true });
    const other = JOB.replace('"1"', '"2"')
      .replace("Finished", "Ported")
      .replace("customer:", "may_compare: yes\ncustomer:");
    write("a.csv", READINGS)();
    write("1.yaml", `${JOB}compare: [ { job: 2.yaml } ]\n`)();
    write("2.yaml", other)();
    await shows(slipIn("a.csv", "6,80", "6,90"));
    await shows(slipIn("1.yaml", "valve: 42", "valve: 41"));
    await shows(write("shop.yaml", "report: { test_pressure: 10 inH2O }\n"));
    await shows(slipIn("shop.yaml", "10 inH2O", "12 inH2O"));
    // The job that draws it is refused as soon as the other may not be drawn.
    expect(await shows(slipIn("2.yaml", "may_compare: yes", "may_compare: no "))).toContain("may-not-compare");
    await shows(() => rmSync(at("2.yaml")));
    await shows(write("2.yaml", other));
    // A shop above the folder, then a nearer one; a file that stops being a job, and one that becomes one.
    rmSync(at("shop.yaml"));
    await shows(() =>
      writeFileSync(join(own, "shop.yaml"), "units: { length: mm }\nreport: { hold_back: [ pinch ] }\n"),
    );
    await shows(write("shop.yaml", "units: { length: mm }\n"));
    write("3.yaml", "issued: 2026-01-01\n")();
    expect(await look()).not.toContain("3.yaml");
    expect(await shows(write("3.yaml", JOB.replace('"1"', '"3"')))).toContain("3.yaml");
    expect(await shows(slipIn("3.yaml", "job:", "jab:"))).not.toContain("3.yaml");
    // A link beside its job shows nothing twice; then one in a job's place, and a job under another name.
    const listed = await look();
    symlinkSync("2.yaml", at("4.yaml"));
    expect(await look()).toBe(listed);
    await shows(() => {
      rmSync(at("2.yaml"));
      write("far/2.yaml", other)();
      symlinkSync("far/2.yaml", at("2.yaml"));
    });
    await shows(() => renameSync(at("1.yaml"), at("5.yaml")));
    // The same words, but now it is itself that the job compares with.
    for (const name of ["6.yaml", "7.yaml"]) write(name, `${other}compare: [ { job: 7.yaml } ]\n`)();
    await shows(() => {
      rmSync(at("6.yaml"));
      symlinkSync("7.yaml", at("6.yaml"));
    });
  });

  test("is used while nothing changed, and written beside and renamed only when something did", async () => {
    await run();
    const before = statSync(cacheOf(place));
    await run();
    expect(statSync(cacheOf(place)).ino).toBe(before.ino);
    await run("--pressure", "10 inH2O");
    expect(statSync(cacheOf(place)).ino).not.toBe(before.ino);
    await holds();
  });

  test("is neither read nor written with --no-cache, nor is a job ever looked for in it", async () => {
    rmSync(join(jobs, ".headsheet"), { recursive: true });
    await run("--no-cache");
    expect(existsSync(cacheOf(place))).toBe(false);
  });
});
