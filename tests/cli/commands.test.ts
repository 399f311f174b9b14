import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { inProcess, namesIn, headsheet as process, ROOT, scratch } from "./run.ts";

const folder = scratch();
const headsheet = (args: readonly string[], { cwd = ROOT } = {}) => inProcess(args, cwd);
const desk = (name: string) => {
  const path = join(folder, name);
  mkdirSync(path, { recursive: true });
  return path;
};
const put = (path: string, text: string) => {
  mkdirSync(join(path, ".."), { recursive: true });
  writeFileSync(path, text);
};

test("the program itself answers, writes data and messages apart, and exits as it should", () => {
  const good = process(["--version"]);
  expect(good).toMatchObject({ code: 0, err: "" });
  const bad = process(["mke"]);
  expect(bad).toMatchObject({ code: 2, out: "" });
});

test("--help begins with an example, --version is the package's", async () => {
  const help = await headsheet(["--help"]);
  expect(help.code).toBe(0);
  expect(help.out).toMatch(/^Example: headsheet make /);
  expect(help.err).toBe("");
  const { version } = JSON.parse(readFileSync(join(ROOT, "package.json"), "utf8"));
  expect(process(["--version"]).out).toBe(`${version}\n`);
});

test.each([
  [["mke"], "make"],
  [["make", "--papr", "A4"], "--paper"],
])("%j is wrong use, and the nearest is suggested", async (args, near) => {
  const { code, out, err } = await headsheet(args);
  expect(code).toBe(2);
  expect(out).toBe("");
  expect(err).toContain(near);
});

test("without a command it shows how to use it, as wrong use", async () => {
  const { code, out, err } = await headsheet([]);
  expect(code).toBe(2);
  expect(out).toBe("");
  expect(err).toContain("Example: headsheet make");
});

test("new, check, make, figures: from nothing to a sheet, as the README says", async () => {
  const cwd = desk("fresh");
  expect(await headsheet(["new", "jobs/mine.yaml"], { cwd })).toMatchObject({ code: 0, out: "jobs/mine.yaml\n" });
  const check = await headsheet(["check", "jobs/mine.yaml"], { cwd });
  expect(check.code).toBe(0);
  expect(check.out).toBe("");
  expect(check.err).toContain("nothing wrong");
  expect(readdirSync(cwd)).toEqual(["jobs"]);
  const made = await headsheet(["make", "jobs/mine.yaml"], { cwd });
  expect(made.code).toBe(0);
  expect(made.out).toMatch(/^out\/mine_rev1_handover_[a-z0-9-]+_\d{4}-\d\d-\d\d_draft\.pdf\n$/);
  expect(statSync(join(cwd, made.out.trim())).size).toBeGreaterThan(10_000);
  const figures = await headsheet(["figures", "jobs/mine.yaml", "--json"], { cwd });
  expect(JSON.parse(figures.out).job).toBe("mine");
  expect((await headsheet(["figures", "jobs/mine.yaml"], { cwd })).out).toMatch(/peak .* at/);
  const csv = (await headsheet(["figures", "jobs/mine.yaml", "--csv"], { cwd })).out.split("\n");
  expect(csv[0]).toBe("stage,set,side,lift (in),flow (cfm),plus or minus (cfm),repeats,mark,row,cylinder,hand,mount");
  expect(csv.length).toBeGreaterThan(10);
});

test("new refuses to overwrite, and a name that is no job file", async () => {
  const cwd = desk("new");
  put(join(cwd, "mine.yaml"), "mine");
  expect(await headsheet(["new", "mine.yaml"], { cwd })).toMatchObject({ code: 2, out: "" });
  expect(readFileSync(join(cwd, "mine.yaml"), "utf8")).toBe("mine");
  expect((await headsheet(["new", "mine.txt"], { cwd })).code).toBe(2);
  expect((await headsheet(["new", "part.yaml", "--product"], { cwd })).code).toBe(0);
});

test("new --from takes a job's head and engine along, and nothing of its customer, marks or readings", async () => {
  const cwd = desk("from");
  for (const job of ["alder-lane/2026-014.yaml", "alder-lane/2026-031.yaml", "fennick/f-251.yaml"]) {
    const file = `${job.replace(/[^a-z0-9]/g, "-")}.yaml`;
    expect((await headsheet(["new", file, "--from", join(ROOT, "jobs", job)], { cwd })).code).toBe(0);
    const text = readFileSync(join(cwd, file), "utf8");
    expect(text).toMatch(/^engine:\n {2}name: /m);
    expect(text).toMatch(/^head:\n {2}name: /m);
    expect(text).not.toMatch(/Ashgrove|Okonjo|Παππά|stamped|condition|internal|remarks|flow: \|\n {6}\S/);
    expect(await headsheet(["check", file], { cwd })).toMatchObject({
      code: 0,
      err: expect.stringContaining("nothing wrong"),
    });
  }
  const product = await headsheet(["new", "p.yaml", "--from", join(ROOT, "jobs/fennick/fd-16.yaml")], { cwd });
  expect(product.err).toContain("names no head and no engine");
  expect((await headsheet(["check", "p.yaml"], { cwd })).code).toBe(0);
  expect((await headsheet(["new", "x.yaml", "--from", "none.yaml"], { cwd })).code).toBe(1);
  expect(existsSync(join(cwd, "x.yaml"))).toBe(false);
  expect((await headsheet(["new", "x.yaml", "--from", "a.yaml", "--product"], { cwd })).code).toBe(2);
});

test("a bad job is refused with its place, leaves its old sheet alone, and does not stop the rest", async () => {
  const cwd = desk("batch");
  expect((await headsheet(["new", "jobs/good.yaml"], { cwd })).code).toBe(0);
  expect((await headsheet(["new", "jobs/bad.yaml"], { cwd })).code).toBe(0);
  const first = await headsheet(["make", "jobs/bad.yaml"], { cwd });
  const old = readFileSync(join(cwd, first.out.trim()));
  const text = readFileSync(join(cwd, "jobs/bad.yaml"), "utf8");
  writeFileSync(join(cwd, "jobs/bad.yaml"), text.replace("throat: 1.400", "thorat: 1.400"));
  const { code, out, err } = await headsheet(["make"], { cwd });
  expect(code).toBe(1);
  expect(out).toMatch(/^out\/good_rev1_/);
  expect(out.split("\n")).toHaveLength(2);
  expect(err).toMatch(/jobs\/bad\.yaml:\d+:\d+/);
  expect(err).toContain("`throat`");
  expect(err.trimEnd().split("\n").at(-1)).toBe("1 sheet written, 1 job refused");
  expect(readFileSync(join(cwd, first.out.trim())).equals(old)).toBe(true);
  expect(namesIn(join(cwd, "out")).filter((name) => !name.endsWith(".pdf"))).toEqual([]);
});

test("two jobs that would share a name stop the batch before anything is written", async () => {
  const cwd = desk("twins");
  await headsheet(["new", "jobs/a.yaml"], { cwd });
  mkdirSync(join(cwd, "jobs/more"));
  copyFileSync(join(cwd, "jobs/a.yaml"), join(cwd, "jobs/more/b.yaml"));
  const { code, err } = await headsheet(["make"], { cwd });
  expect(code).toBe(2);
  expect(err).toContain("jobs/more/b.yaml");
  expect(existsSync(join(cwd, "out"))).toBe(false);
});

test("nothing to make is wrong use", async () => {
  const cwd = desk("empty");
  expect(await headsheet(["make"], { cwd })).toMatchObject({ code: 2, out: "" });
  expect(await headsheet(["make", "none.yaml"], { cwd })).toMatchObject({ code: 1, out: "" });
  expect((await headsheet(["make", "none.yaml"], { cwd })).err).toContain("there is no file `none.yaml`");
});

test("--paper, --units, --template and --png are obeyed", async () => {
  const cwd = desk("options");
  await headsheet(["new", "mine.yaml"], { cwd });
  const letter = await headsheet(
    ["make", "mine.yaml", "--paper", "Letter", "--units", "metric", "--template", "handover", "--png"],
    { cwd },
  );
  expect(letter.code).toBe(0);
  expect(letter.out.split("\n").filter((line) => line.endsWith(".png")).length).toBeGreaterThan(0);
  const png = readFileSync(join(cwd, letter.out.split("\n").find((line) => line.endsWith(".png"))!));
  expect([png.readUInt32BE(16), png.readUInt32BE(20)]).toEqual([850, 1100]); // 8.5 × 11 in at 100 dots an inch
  expect((await headsheet(["make", "mine.yaml", "--paper", "A5"], { cwd })).code).toBe(2);
  expect((await headsheet(["make", "mine.yaml", "--units", "flow=mph"], { cwd })).err).toContain("cfm");
  const none = await headsheet(["make", "mine.yaml", "--template", "handovr"], { cwd });
  expect(none.code).toBe(1);
  expect(none.err).toContain("did you mean `handover`?");
});

test("schema prints the schemas that the code gives, and suggests the nearest name", async () => {
  for (const name of ["job", "shop", "template", "figures"]) {
    const { code, out } = await headsheet(["schema", name]);
    expect([code, out]).toEqual([0, readFileSync(join(ROOT, "schemas", `${name}.schema.json`), "utf8")]);
  }
  expect((await headsheet(["schema"])).out).toBe((await headsheet(["schema", "job"])).out);
  expect(await headsheet(["schema", "shopp"])).toMatchObject({ code: 2, err: expect.stringContaining("`shop`?") });
});

test("a folder in place of a sheet is reported, exit 2", async () => {
  const cwd = desk("folder");
  await headsheet(["new", "mine.yaml"], { cwd });
  const { out } = await headsheet(["make", "mine.yaml"], { cwd });
  const taken = join(cwd, "other", out.trim().slice("out/".length));
  mkdirSync(join(taken, "inside"), { recursive: true });
  const { code, err } = await headsheet(["make", "mine.yaml", "--out", "other"], { cwd });
  expect(code).toBe(2);
  expect(err).toMatch(/folder stands|something stands/);
  expect(err).not.toContain("    at ");
});
