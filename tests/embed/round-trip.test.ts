import { describe, expect, test } from "vitest";
import { buildAttachments } from "../../src/embed/embedded-files.ts";
import type { Figures } from "../../src/figures/figures.ts";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { memoryWorld } from "../project/memory-world.ts";
import { demo, demoJobs, kit, ROOT } from "../whole/demo.ts";

const open = (path: string) => {
  const { drawable } = evaluateJob(path, {}, kit.io);
  if (!drawable) throw new Error(`refused: ${path}`);
  return drawable;
};
type Drawable = ReturnType<typeof open>;

const files = (
  { project, model, figures }: Drawable,
  embed: "none" | "readings" | "figures" | "job",
  holdBack?: readonly string[],
) =>
  buildAttachments(
    project,
    { ...model, report: { ...model.report, embed, holdBack: holdBack ?? model.report.holdBack } },
    figures,
  );
const textOf = (all: ReturnType<typeof files>, name: string) =>
  new TextDecoder().decode(all.find((file) => file.name === name)!.bytes);

/** What a copy cannot and may not make again: findings about the file, and other people's heads. */
function own(figures: Figures) {
  const { warnings: _, others: __, ...rest } = figures;
  return { ...rest, comparisons: rest.comparisons.filter(({ from, to }) => !from.label && !to.label) };
}

const jobs = demoJobs.map((path) => [path.slice(`${ROOT}jobs/`.length), path] as const);

describe("a job rebuilt from the copy inside a sheet makes the same figures", () => {
  // A product, and sheets of several heads, carry no job.
  test.each(jobs.filter(([name]) => !/fd-16|2026-05[45]/.test(name)))("%s", (_, path) => {
    const before = open(path);
    const copy = textOf(files(before, "job", []), "job.yaml");
    const after = evaluateJob("/copy/job.yaml", {}, memoryWorld({ "/copy/job.yaml": copy }));
    expect(after.diagnostics.filter(({ severity }) => severity === "error")).toEqual([]);
    expect(own(after.drawable!.figures)).toEqual(own(before.figures));
  });
});

describe("what a sheet carries", () => {
  const job = open(demo("alder-lane/2026-014.yaml"));
  const names = (all: ReturnType<typeof files>) =>
    all.map(({ name, relationship, type }) => [name, relationship, type]);
  const readings = ["readings.csv", "Data", "text/csv"];
  const figures = ["figures.json", "Data", "application/json"];

  test("follows report.embed", () => {
    expect(files(job, "none")).toEqual([]);
    expect(names(files(job, "readings"))).toEqual([readings]);
    expect(names(files(job, "figures"))).toEqual([readings, figures]);
    expect(names(files(job, "job"))).toEqual([readings, figures, ["job.yaml", "Source", "application/yaml"]]);
  });
  test("is readings alone when the job does not say", () => expect(job.model.report.embed).toBe("readings"));
  test("on a catalogue page is no job, and its readings are those of all heads", () => {
    const product = files(open(demo("fennick/fd-16.yaml")), "job");
    expect(names(product)).toEqual([readings, figures]);
    const lines = textOf(product, "readings.csv").trim().split("\n");
    expect(lines[0]).toMatch(/^side,lift \(mm\),heads measured,mean flow/);
    expect(lines.length).toBeGreaterThan(10);
  });
  test("figures are those of `figures --json` where nothing is held back, less warnings and other heads", () => {
    const shown = JSON.parse(textOf(files(job, "figures", []), "figures.json"));
    expect(shown).toEqual(JSON.parse(JSON.stringify(own(job.figures))));
  });
});
