import { describe, expect, test } from "vitest";
import { render } from "../../src/diagnostics/render.ts";
import { templatesOf } from "../../src/pipeline/file-name.ts";
import { loadProject } from "../../src/project/load-project.ts";
import { memoryWorld } from "./memory-world.ts";
import { jpeg, png } from "./pictures.ts";
import { SHOP, SHORT_SET } from "./shop-texts.ts";

const JPEG = jpeg({ width: 8, height: 8 });
const PNG = png({ width: 2, height: 2 });
const JOB = "/shop/jobs/a.yaml";
const base = { "/shop/shop.yaml": SHOP, [JOB]: SHORT_SET };
const OTHER = SHORT_SET.replace("2026-014", "2025-101")
  .replace("A. Miller", "B. Secret")
  .replace("issued:", "may_compare: yes\nissued:");
const run = (file: string) =>
  SHORT_SET.replace(/ {4}flow: \|\n(?: {6}.*\n)+work/, `    runs: [ { file: ${file} } ]\nwork`);
const codes = (world: Parameters<typeof memoryWorld>, path = JOB) =>
  loadProject(path, memoryWorld(...world)).diagnostics.map((each) => each.code);

describe("the shop", () => {
  test("the nearest shop.yaml counts, and only that one", () => {
    const world = memoryWorld({ ...base, "/shop/jobs/shop.yaml": SHOP.replace("Quayside", "Nearer") });
    const { project, shopFile } = loadProject(JOB, world);
    expect(project?.shop?.shop?.name).toBe("Nearer Heads");
    expect(shopFile).toBe("/shop/jobs/shop.yaml");
  });
  test("the search goes up eight folders and no further", () => {
    const deep = (n: number) => `/shop/${Array.from({ length: n }, (_, i) => i).join("/")}/a.yaml`;
    expect(loadProject(deep(8), memoryWorld({ "/shop/shop.yaml": SHOP, [deep(8)]: SHORT_SET })).shopFile).toBe(
      "/shop/shop.yaml",
    );
    expect(
      loadProject(deep(9), memoryWorld({ "/shop/shop.yaml": SHOP, [deep(9)]: SHORT_SET })).shopFile,
    ).toBeUndefined();
  });
  test("the search stops at a repository's root and at the home folder", () => {
    const files = { "/up/shop.yaml": SHOP, "/up/repo/jobs/a.yaml": SHORT_SET };
    expect(
      loadProject("/up/repo/jobs/a.yaml", memoryWorld({ ...files, "/up/repo/.git/HEAD": "x" })).shopFile,
    ).toBeUndefined();
    expect(loadProject("/up/repo/jobs/a.yaml", memoryWorld(files, { home: "/up/repo" })).shopFile).toBeUndefined();
    expect(loadProject("/up/repo/jobs/a.yaml", memoryWorld(files)).shopFile).toBe("/up/shop.yaml");
  });
  test("its faults are told with its own lines", () => {
    const { diagnostics, sources, project } = loadProject(
      JOB,
      memoryWorld({ ...base, "/shop/shop.yaml": SHOP.replace("reads: flow", "reads: flaw") }),
    );
    expect(project).toBeUndefined();
    expect(render(diagnostics, sources)).toContain("--> /shop/shop.yaml:4:");
  });
  test("without one, bare numbers and pressure have no meaning", () => {
    expect(codes([{ [JOB]: SHORT_SET }])).toContain("units/missing-unit");
  });
  test("a job without any test pressure is refused, once", () => {
    const shop = SHOP.replace("test_pressure: 28, reads", "reads");
    expect(codes([{ ...base, "/shop/shop.yaml": shop }])).toEqual(["job/test-pressure"]);
    const own = SHORT_SET.replace("stages:", "bench: { test_pressure: 10 }\nstages:");
    expect(codes([{ "/shop/shop.yaml": shop, [JOB]: own }])).toEqual([]);
  });
});

describe("readings files", () => {
  const csv = "lift;intake;exhaust\r\n0.100;44,0;33\r\n";
  test("are read with the marks and units of tables", () => {
    const world = memoryWorld({
      ...base,
      [JOB]: run("../bench/f.csv"),
      "/shop/bench/f.csv": "\ufefflift/mm;intake\r\n2.5;44.0?\r\n5;-;# slipped\r\n".replace(";#", " #"),
    });
    const { project, diagnostics, filesRead } = loadProject(JOB, world);
    expect(diagnostics).toEqual([]);
    const table = project?.tables.find((one) => one.stage === 1)?.table;
    expect(table?.rows.map((row) => [row.lift.value, row.readings.intake?.kind])).toEqual([
      [0.0025, "doubtful"],
      [0.005, "missing"],
    ]);
    expect(filesRead).toEqual(["/shop/shop.yaml", JOB, "/shop/bench/f.csv"]);
  });
  test("a fault in one is shown in its own line", () => {
    const { diagnostics, sources } = loadProject(
      JOB,
      memoryWorld({ ...base, [JOB]: run("f.csv"), "/shop/jobs/f.csv": csv }),
    );
    expect(diagnostics.map((each) => each.code)).toEqual(["units/decimal-comma"]);
    expect(render(diagnostics, sources)).toContain("--> /shop/jobs/f.csv:2:7");
  });
});

describe("paths stay inside the shop", () => {
  const outside = { ...base, "/secret.csv": "lift,intake\n0.1,2\n" };
  test.each([
    ["missing", "none.csv", "project/file-missing"],
    ["leaves", "../../secret.csv", "project/path-outside"],
    ["leaves and comes back by name", "../../shop/../secret.csv", "project/path-outside"],
    ["absolute", "/secret.csv", "project/path-absolute"],
    ["home", "~/secret.csv", "project/path-absolute"],
    ["a drive", "'C:\\secret.csv'", "project/path-absolute"],
    ["backslashes", "'..\\..\\secret.csv'", "project/path-backslash"],
    ["an address", "https://example.org/secret.csv", "project/path-url"],
    ["a file address", "file:///secret.csv", "project/path-url"],
    ["a folder", "..", "project/path-outside"],
    ["a folder inside", "sub", "project/not-a-file"],
    ["a device", "device", "project/not-a-file"],
    ["a link out", "link.csv", "project/path-outside"],
    ["a folder linked out", "linked/secret.csv", "project/path-outside"],
    ["too large", "large.csv", "project/too-large"],
  ])("%s", (_, typed, code) => {
    const files = {
      ...outside,
      [JOB]: run(typed),
      "/shop/jobs/sub/x.csv": "x",
      "/shop/jobs/large.csv": "x".repeat(256 * 1024 + 1),
    };
    const more = {
      links: { "/shop/jobs/link.csv": "/secret.csv", "/shop/jobs/linked": "" },
      devices: ["/shop/jobs/device"],
    };
    expect(codes([files, more])).toEqual([code]);
  });
  test("without a shop, the job's own folder is the limit", () => {
    const job = run("../bench/f.csv").replace(
      "stages:",
      "units: { length: in, flow: cfm }\nbench: { test_pressure: 28 inH2O }\nstages:",
    );
    const files = { [JOB]: job, "/shop/bench/f.csv": "lift,intake\n0.1,2\n" };
    expect(codes([files])).toEqual(["project/path-outside"]);
    expect(
      codes([
        { ...files, [JOB]: job.replace("../bench/", "bench/"), "/shop/jobs/bench/f.csv": "lift,intake\n0.1,2\n" },
      ]),
    ).toEqual([]);
  });
  test("a link that stays inside is followed", () => {
    const files = { ...base, [JOB]: run("link.csv"), "/shop/bench/f.csv": "lift,intake\n0.1,2\n" };
    expect(codes([files, { links: { "/shop/jobs/link.csv": "/shop/bench/f.csv" } }])).toEqual([]);
  });
});

describe("pictures", () => {
  const withPhoto = `${SHORT_SET}photos: [ { file: p.jpg }, { file: p.jpg } ]\n`;
  test("photos and logo are read", () => {
    const shop = SHOP.replace("name: Quayside Heads", "name: Quayside Heads, logo: logo.png");
    const { project, diagnostics } = loadProject(
      JOB,
      memoryWorld({ "/shop/shop.yaml": shop, [JOB]: withPhoto, "/shop/jobs/p.jpg": JPEG, "/shop/logo.png": PNG }),
    );
    expect(diagnostics).toEqual([]);
    expect([...(project?.images.keys() ?? [])]).toEqual(["p.jpg"]);
    expect(project?.logo).toEqual(PNG);
  });
  test("what is no picture is refused", () => {
    expect(codes([{ ...base, [JOB]: withPhoto, "/shop/jobs/p.jpg": "<svg/>" }])).toEqual(["project/picture-kind"]);
    expect(codes([{ ...base, [JOB]: `${SHORT_SET}photos: [ { file: q.jpg } ]\n` }])).toEqual(["project/file-missing"]);
  });
});

describe("other heads", () => {
  const comparing = (entry: string) => `${SHORT_SET}compare: [ ${entry} ]\n`;
  const world = (entry: string, other = OTHER) =>
    [{ ...base, [JOB]: comparing(entry), "/shop/jobs/b.yaml": other }] as Parameters<typeof memoryWorld>;
  test("the last stage that repeats no other is drawn", () => {
    const again = OTHER.replace("work:", "  - { name: As received again, repeats: As received }\nwork:");
    const { project, diagnostics } = loadProject(
      JOB,
      memoryWorld(...world("{ job: b.yaml, label: Same casting }", again)),
    );
    expect(diagnostics).toEqual([]);
    expect(project?.compared.map((one) => [one.label, one.from.job.stages?.[one.stage]?.name])).toEqual([
      ["Same casting", "Finished"],
    ]);
  });
  test("it is read with its own shop's units", () => {
    const files = {
      ...base,
      [JOB]: comparing("{ job: metric/b.yaml, label: Other }"),
      "/shop/jobs/metric/shop.yaml": SHOP.replace("length: in", "length: cm"),
      "/shop/jobs/metric/b.yaml": OTHER,
    };
    const { project } = loadProject(JOB, memoryWorld(files));
    expect(project?.compared[0]?.from.job.stages?.[0]?.intake?.throat).toBeCloseTo(0.014, 12);
    expect(project?.job.stages?.[0]?.intake?.throat).toBeCloseTo(0.03556, 12);
  });
  test("what it names itself is not followed", () => {
    const { project, filesRead } = loadProject(
      JOB,
      memoryWorld(
        ...world("{ job: b.yaml }", `${OTHER}compare: [ { job: gone.yaml } ]\nphotos: [ { file: gone.jpg } ]\n`),
      ),
    );
    expect(project?.compared).toHaveLength(1);
    expect(filesRead).toEqual(["/shop/shop.yaml", JOB, "/shop/jobs/b.yaml"]);
  });
  test.each([
    ["itself", "{ job: a.yaml }", OTHER, "project/names-itself"],
    ["itself by a detour", "{ job: ../jobs/a.yaml }", OTHER, "project/names-itself"],
    ["a stage it lacks", "{ job: b.yaml, stage: Finishd }", OTHER, "project/stage-missing"],
    ["a file that is not there", "{ job: c.yaml }", OTHER, "project/file-missing"],
    [
      "a head that may not be drawn",
      "{ job: b.yaml }",
      OTHER.replace("may_compare: yes", "may_compare: no"),
      "project/may-not-compare",
    ],
    [
      "a head that says nothing of it: samples only",
      "{ job: b.yaml }",
      OTHER.replace("may_compare: yes\n", ""),
      "project/may-not-compare",
    ],
    [
      "a job with faults",
      "{ job: b.yaml }",
      OTHER.replace("throat: 1.400", "throat: wide"),
      "project/other-job-refused",
    ],
  ])("refused: %s", (_, entry, other, code) => {
    expect(codes(world(entry, other))).toEqual([code]);
  });
  test.each([
    ["of one name", "{ job: b.yaml }, { job: b.yaml, stage: As received }"],
    ["of one label", "{ job: b.yaml, label: Same }, { job: b.yaml, stage: As received, label: Same }"],
    ["of a label that is another's name", "{ job: b.yaml }, { job: b.yaml, stage: As received, label: Wedge four }"],
  ])("two heads %s are refused", (_, entries) => {
    const { project, diagnostics } = loadProject(JOB, memoryWorld(...world(entries)));
    expect(project).toBeUndefined();
    expect(diagnostics.map(({ code, hint }) => [code, hint])).toEqual([
      ["project/label-twice", "give each head a `label`"],
    ]);
    expect(codes(world("{ job: b.yaml }, { job: b.yaml, stage: As received, label: Before }"))).toEqual([]);
  });
  test("no word of the other customer is in what is drawn", () => {
    const { project } = loadProject(JOB, memoryWorld(...world("{ job: b.yaml }")));
    expect(project?.compared[0]?.label).toBe("Wedge four");
  });
});

describe("products", () => {
  const product = (samples: string) => `product: { part: P-1, name: Wedge }\nissued: 2026-04-01\nsamples: ${samples}\n`;
  const sample = OTHER.replace("may_compare: yes\n", "");
  const files = { "/shop/shop.yaml": SHOP, "/shop/b.yaml": sample, "/shop/c.yaml": sample };
  test("samples are read; catalogue is the template", () => {
    const { project, diagnostics } = loadProject(
      "/shop/p.yaml",
      memoryWorld({ ...files, "/shop/p.yaml": product("[ b.yaml, { job: c.yaml, stage: As received } ]") }),
    );
    expect(diagnostics).toEqual([]);
    expect(project?.samples.map((one) => one.stage)).toEqual([1, 0]);
    expect(templatesOf(project!, {})).toEqual(["catalogue"]);
  });
  test.each([
    ["a head twice", "[ b.yaml, b.yaml ]", "project/sample-twice"],
    ["a product", "[ q.yaml ]", "project/other-is-product"],
    ["itself", "[ p.yaml ]", "project/names-itself"],
    ["a missing file", "[ x.yaml ]", "project/file-missing"],
  ])("refused: %s", (_, samples, code) => {
    expect(
      codes([{ ...files, "/shop/q.yaml": product("[ b.yaml ]"), "/shop/p.yaml": product(samples) }], "/shop/p.yaml"),
    ).toEqual([code]);
  });
});

describe("the job's own path", () => {
  test.each([
    ["missing", "/shop/none.yaml", "project/file-missing"],
    ["a folder", "/shop/jobs", "project/not-a-file"],
    ["too large", "/shop/large.yaml", "project/too-large"],
  ])("%s", (_, path, code) => {
    expect(codes([{ ...base, "/shop/large.yaml": "x".repeat(300_000) }], path)).toEqual([code]);
  });
  test("faults of the job and of what it names are told in one go", () => {
    const text = `${run("none.csv").replace("throat: 1.400", "throat: wide")}photos: [ { file: gone.jpg } ]\ncompare: [ { job: gone.yaml } ]\n`;
    expect(codes([{ ...base, [JOB]: text }])).toEqual([
      "units/not-a-number",
      "project/file-missing",
      "project/file-missing",
      "project/file-missing",
    ]);
  });
});
