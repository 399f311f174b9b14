import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { computeFigures } from "../../src/figures/compute-figures.ts";
import { disk } from "../../src/io/disk.ts";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { BLOCKS } from "../../src/sheet/blocks.ts";
import { buildSheet } from "../../src/sheet/build-sheet.ts";
import type { Part } from "../../src/sheet/content.ts";
import { makeTheme } from "../../src/theme/make-theme.ts";
import { demo } from "../whole/demo.ts";
import { fullModel, only } from "./sheet-fixture.ts";

const { rows } = JSON.parse(readFileSync(new URL("../references/words.json", import.meta.url), "utf8")) as {
  readonly rows: readonly { readonly says: string; readonly origin: string }[];
};

/** Heads, names and labels of a part: words of the sheet, not of the job, but for what stands in their gaps. */
function labelsOf(part: Part, block: string): readonly (string | undefined)[] {
  switch (part.kind) {
    case "heading":
      return [part.text];
    case "title":
      return [part.kicker];
    case "hero":
      return part.facts.map(({ label }) => label);
    case "facts-row":
      return part.facts.map(({ label }) => label);
    case "key-row":
      return part.pairs.map(({ label }) => label);
    case "paragraph":
      return [part.lead];
    case "list":
      return part.items.map(({ lead }) => lead);
    case "facts":
      return part.rows.map(({ label }) => label);
    case "table":
      return [
        ...part.columns.map(({ title }) => title),
        ...(part.groups ?? []).map(({ text }) => text),
        ...(NAMED_ROWS.has(block) ? part.rows.map(([first]) => first?.text) : []),
      ];
    case "headline":
      return part.cells.map(({ label }) => label);
    case "charts":
      return part.charts.flatMap(({ title, chart }) => [
        title,
        chart.x.title,
        chart.y.title,
        ...(chart.kind === "line" ? [chart.top?.title, ...(chart.marks ?? []).map(({ label }) => label)] : []),
      ]);
    case "true-size":
      return part.figures.map(({ title }) => title);
    case "signatures":
      return part.labels.map(({ role }) => role);
    default:
      return [];
  }
}

/** Tables whose rows are named by the sheet; those of others are lifts, cylinders and the porter's words. */
const NAMED_ROWS = new Set(["dimensions", "valve-job"]);
/** Blocks whose lists are led by the porter's own words. */
const HIS_WORDS = new Set(["work", "job", "not-done", "parts"]);

const demos = ["alder-lane/2026-014", "alder-lane/2026-026", "alder-lane/2026-031", "alder-lane/2026-040"].concat(
  ["f-231", "f-244", "f-251", "fd-16"].map((name) => `fennick/${name}`),
);
const worked = demos.map((name) => {
  const { drawable } = evaluateJob(demo(`${name}.yaml`), {}, disk);
  if (!drawable) throw new Error(name);
  return drawable;
});
const full = fullModel();
const { theme } = makeTheme({});

/** Blocks that leave their place to others where these stand on the sheet too. */
const ALONE = ["dimensions", "valve-job", "cylinders", "flow-table"];
const templates = [only(...Object.keys(BLOCKS)), only(...ALONE)];

const labels = [...worked, { model: full, figures: computeFigures(full) }].flatMap(({ model, figures }) => {
  const sheetRows = templates.flatMap(
    (template) => buildSheet({ model, figures, mark: "0f1e2d3c", theme, template }).sheet.rows,
  );
  const own = new Set([
    ...model.stages.map((stage) => stage.name),
    ...model.text.alsoMeasured.map(({ what }) => what),
    ...model.compared.map(({ label }) => label),
  ]);
  return sheetRows.flatMap(({ cells }) =>
    cells.flatMap(({ block }) =>
      block.parts
        .filter(({ kind }) => !(kind === "list" && HIS_WORDS.has(block.name)))
        .flatMap((part) => labelsOf(part, block.name))
        .flatMap((label) => (label ? [{ block: block.name, label }] : []))
        .filter(({ label }) => !own.has(label.replace(/:$/, "").replace(/ [†‡]$/, "")))
        // Columns of cylinders and of valves have their numbers.
        .filter(({ label }) => !(["cylinders", "valve-checks"].includes(block.name) && /^\d/.test(label)))
        // The product's own name stands over its page.
        .filter(({ label }) => !(block.name === "product" && label === model.identity.title)),
    ),
  );
});

const patterns = rows.map(({ says, origin }) => ({
  says,
  origin,
  matches: new RegExp(
    `^${says
      .split(/\{[^}]*\}/)
      .map((text) => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"))
      .join(".+")}(?: [†‡])?$`,
    "u",
  ),
}));
const open = (says: string) => /^\{[^}]*\}[:.]?$/.test(says);
const rowOf = (label: string) => patterns.find(({ says, matches }) => !open(says) && matches.test(label));

test("every head, name and label on a sheet has a row that says where it comes from", () => {
  expect(labels.length).toBeGreaterThan(300);
  const strays = labels.filter(({ label }) => rowOf(label) === undefined);
  expect([...new Set(strays.map(({ block, label }) => `${block}: ${label}`))]).toEqual([]);
});

test("an unlisted word is reported", () => {
  for (const label of ["Efficiency", "Flow rating", "Choke point"]) expect(rowOf(label)).toBeUndefined();
});

test("each row has an origin, none stands twice, and none is left over", () => {
  for (const { says, origin } of rows) expect(origin, says).not.toBe("");
  expect(new Set(rows.map(({ says }) => says)).size).toBe(rows.length);
  const unused = patterns.filter(({ matches }) => !labels.some(({ label }) => matches.test(label)));
  expect(unused.map(({ says }) => says)).toEqual([]);
});
