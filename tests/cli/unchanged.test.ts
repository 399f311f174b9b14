import {
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { beforeAll, expect, test } from "vitest";
import { run } from "../../src/cli/main.ts";
import type { Environment } from "../../src/commands/environment.ts";
import { buildId } from "../../src/commands/environment.ts";
import { openRegisters } from "../../src/commands/issued/register.ts";
import { readBuildRecord } from "../../src/commands/make/build-record.ts";
import { planBatch, recordKey } from "../../src/commands/make/plan-batch.ts";
import { disk } from "../../src/io/disk.ts";
import { png } from "../project/pictures.ts";
import { copyJobs, inProcess, quietWorld, ROOT, scratch } from "./run.ts";

const desk = join(scratch(), "desk");
const jobs = join(desk, "jobs");
const out = join(desk, "out");
const RECORD = ".headsheet-made.json";

/** A job that leads to every kind of file there is, and another beside it. */
beforeAll(() => {
  copyJobs(jobs, "alder-lane");
  mkdirSync(join(jobs, "templates"));
  const template = readFileSync(join(ROOT, "templates", "attachment.yaml"), "utf8");
  writeFileSync(join(jobs, "templates", "mine.yaml"), template.replace("template: attachment", "template: mine"));
  writeFileSync(join(jobs, "photo.png"), png({ width: 2, height: 1 }));
  // Named twice: a warning that every run has to keep.
  edit("shop.yaml", (text) =>
    text.replace("logo: logo.svg", "logo: photo.png").replace("shop:\n", "shop:\n  logo: photo.png\n"),
  );
  edit(
    "2026-040.yaml",
    (text) =>
      `${text.replace(/^sheet:.*\n/m, "")}\nsheet: [ mine ]\nphotos: [ { file: photo.png, caption: Bowl } ]\nremarks: Welded at #3 cylinder\n`,
  );
});

const edit = (name: string, change: (text: string) => string) => {
  const text = readFileSync(join(jobs, name), "utf8");
  const changed = change(text);
  expect(changed).not.toBe(text);
  writeFileSync(join(jobs, name), changed);
};
const make = (...args: string[]) => inProcess(["make", "jobs/2026-026.yaml", "jobs/2026-040.yaml", ...args], desk);
const one = (...args: string[]) => inProcess(["make", "jobs/2026-026.yaml", ...args], desk);
const sums = (err: string) => err.trim().split("\n").at(-1);
const sheets = () => readdirSync(out).filter((name) => name.endsWith(".pdf"));

test("a second run says the same, writes nothing, and keeps every warning", async () => {
  const first = await make();
  expect(first, first.err).toMatchObject({ code: 0 });
  expect(sums(first.err)).toBe("2 sheets written");
  expect(first.err).toContain("warning[");
  const times = sheets().map((name) => statSync(join(out, name)).mtimeMs);
  const again = await make();
  expect(again.out).toBe(first.out);
  expect(again.err).toBe(first.err.replace("2 sheets written", "0 sheets written, 2 unchanged"));
  expect(sheets().map((name) => statSync(join(out, name)).mtimeMs)).toEqual(times);
  expect((await one("--force")).err).not.toContain("unchanged");
  expect(sums((await one()).err)).toBe("0 sheets written, 1 unchanged");
});

test("a sheet that was taken away, cut short or written over is made again, alone", async () => {
  const file = join(out, sheets()[0]!);
  const whole = readFileSync(file);
  const harms: readonly (() => void)[] = [
    () => rmSync(file),
    () => truncateSync(file, whole.length - 1),
    () => writeFileSync(file, Buffer.from(whole).fill(0x20, 700, 701)),
  ];
  for (const harm of harms) {
    harm();
    expect(sums((await make()).err)).toBe("1 sheet written, 1 unchanged");
    expect(readFileSync(file).equals(whole)).toBe(true);
  }
});

test("a record that is corrupt, another build's or missing costs time and nothing else", async () => {
  const path = join(out, RECORD);
  const text = readFileSync(path, "utf8");
  type Line = { readonly build: string; readonly key: string; readonly job: object };
  const lines = text
    .trim()
    .split("\n")
    .map((line) => JSON.parse(line) as Line);
  expect(lines).toHaveLength(2);
  const changed = (change: (line: Line) => object) =>
    lines.map((line) => `${JSON.stringify({ ...line, ...change(line) })}\n`).join("");
  const odd = [
    "",
    "{",
    "null\n",
    text.replaceAll("\n", ""),
    changed(() => ({ build: "another" })),
    changed(() => ({ job: {} })),
    changed(() => ({ job: null })),
    changed(({ job }) => ({ job: { ...job, sheets: [{ name: "../jobs/photo.png", sum: "" }] } })),
  ];
  for (const each of odd) {
    writeFileSync(path, each);
    expect(ahead("jobs/2026-026.yaml").unchanged, each.slice(0, 60)).toBeUndefined();
  }
  rmSync(path);
  expect((await one()).err).not.toContain("unchanged");
  expect(JSON.parse(readFileSync(path, "utf8"))).toMatchObject({ build: lines[0]!.build });
  writeFileSync(path, text);
  expect(sums((await make()).err)).toBe("0 sheets written, 2 unchanged");
});

test("other options are made separately; page pictures are made with --png and made again when missing", async () => {
  expect(sums((await one("--strict")).err)).not.toContain("unchanged");
  const first = await one("--png");
  expect(first.out).toMatch(/_1\.png\n/);
  expect(first.err).not.toContain("unchanged");
  const again = await one("--png");
  expect(sums(again.err)).toBe("0 sheets written, 1 unchanged");
  expect(again.out).toBe(first.out);
  rmSync(
    join(
      desk,
      first.out
        .trim()
        .split("\n")
        .find((path) => path.endsWith(".png"))!,
    ),
  );
  expect((await one("--png")).err).not.toContain("unchanged");
  expect(sums((await make()).err)).toBe("0 sheets written, 2 unchanged");
});

test("a job that is refused is refused each time", async () => {
  edit("2026-026.yaml", (text) => text.replace("stages:", "stagse:"));
  for (let run = 0; run < 2; run++) {
    const { code, err } = await make();
    expect(code).toBe(1);
    expect(sums(err)).toBe("0 sheets written, 1 unchanged, 1 job refused");
  }
  edit("2026-026.yaml", (text) => text.replace("stagse:", "stages:"));
});

test("a batch that is stopped has noted what it made: that is unchanged in the next one, which makes the rest", async () => {
  rmSync(join(out, RECORD));
  const stop = () => {
    const first = disk.readFile(join(out, RECORD), 1e6);
    if (first.kind === "read") throw new Error("stopped");
  };
  // The path of the second job's sheet is printed after it is written and before it is recorded.
  const stopped = run(["make", "jobs/2026-026.yaml", "jobs/2026-040.yaml"], { ...quietWorld(desk), out: stop });
  expect(await stopped).toBe(2);
  expect(sums((await make()).err)).toBe("1 sheet written, 1 unchanged");
  expect(sums((await make()).err)).toBe("0 sheets written, 2 unchanged");
});

test("a line cut short by a kill loses its own job only, and is gone after the next run", async () => {
  const path = join(out, RECORD);
  const [first, second] = readFileSync(path, "utf8").split("\n") as [string, string];
  writeFileSync(path, `${first}\n${second.slice(0, second.length / 2)}`);
  expect(sums((await make()).err)).toBe("1 sheet written, 1 unchanged");
  for (const line of readFileSync(path, "utf8").trim().split("\n")) JSON.parse(line);
});

test("a link in the record's place is replaced, and what it leads to is left alone", async () => {
  const [path, elsewhere] = [join(out, RECORD), join(desk, "elsewhere")];
  writeFileSync(elsewhere, "mine");
  rmSync(path);
  symlinkSync(elsewhere, path);
  expect((await make("--force")).code).toBe(0);
  expect(readFileSync(elsewhere, "utf8")).toBe("mine");
  expect(readFileSync(path, "utf8").trim().split("\n")).toHaveLength(2);
  expect(sums((await make()).err)).toBe("0 sheets written, 2 unchanged");
});

/** What a run would see of a job, short of drawing it. */
function ahead(path: string) {
  const world: Environment = quietWorld(desk);
  const options = { outFolder: "out", png: false };
  const record = readBuildRecord(out, buildId(world)!, disk);
  expect(recordKey(path, options, world)).toContain(path);
  return planBatch([path], { folder: out, registers: openRegisters(world), record }, options, world)[0]!;
}

test("any byte of any file that a sheet was made from, changed or taken away, has it made again", async () => {
  expect((await make()).code).toBe(0);
  const before = ahead("jobs/2026-040.yaml").unchanged!;
  const read = before.queries.filter(([kind]) => kind === "read").map(([, path]) => path);
  const names = read.map((path) => path.slice(jobs.length + 1));
  for (const name of ["2026-040.yaml", "shop.yaml", "photo.png", "templates/mine.yaml"]) expect(names).toContain(name);
  expect(names.some((name) => name.startsWith("bench/"))).toBe(true);
  expect(names.some((name) => /^2026-0\d\d/.test(name) && name !== "2026-040.yaml")).toBe(true);

  fc.assert(
    fc.property(
      fc.constantFrom(...read),
      fc.nat(),
      fc.integer({ min: 1, max: 255 }),
      fc.nat(2),
      (path, at, by, how) => {
        const whole = readFileSync(path);
        const place = at % whole.length;
        const changed =
          how === 0
            ? Buffer.concat([whole.subarray(0, place), whole.subarray(place + 1)])
            : Buffer.from(whole).fill((whole[place]! + by) % 256, place, place + 1);
        writeFileSync(path, changed);
        const { unchanged } = ahead("jobs/2026-040.yaml");
        writeFileSync(path, whole);
        expect(unchanged).toBeUndefined();
      },
    ),
    { numRuns: 60, seed: 20_260_310 },
  );
  expect(ahead("jobs/2026-040.yaml").unchanged).toBeDefined();
});

test("a file that would be read in another's place has it made again", async () => {
  const [nearer, own] = [join(jobs, "templates", "attachment.yaml"), "jobs/2026-026.yaml"];
  expect(ahead(own).unchanged).toBeDefined();
  writeFileSync(nearer, readFileSync(join(ROOT, "templates", "attachment.yaml")));
  expect(ahead(own).unchanged).toBeUndefined();
  rmSync(nearer);
  expect(ahead(own).unchanged).toBeDefined();
});
