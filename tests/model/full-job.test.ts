import fc from "fast-check";
import { expect, test } from "vitest";
import { render } from "../../src/diagnostics/render.ts";
import { buildModel } from "../../src/model/build-model.ts";
import { loadProject } from "../../src/project/load-project.ts";
import { FULL_JOB, FULL_SHOP } from "../job/full-job.ts";
import { memoryWorld } from "../project/memory-world.ts";
import { jpeg, png } from "../project/pictures.ts";
import { SHORT_SET } from "../project/shop-texts.ts";

const FILES = {
  "/shop/shop.yaml": FULL_SHOP,
  "/shop/2025-101.yaml": SHORT_SET.replace("issued:", "may_compare: yes\nissued:"),
  "/shop/bench/2026-014-finished-1.csv": "lift;intake;exhaust\n0.100;44.0;33.1\n0.200;86.2;63.0\n",
  "/shop/bench/2026-014-pipe.tsv": "lift\texhaust\n0.100\t35.0\n0.200\t66.1\n",
  "/shop/photos/2026-014-chamber.jpg": jpeg({ width: 40, height: 30 }),
  "/shop/logo.png": png({ width: 8, height: 8 }),
};
const gathered = (text: string) => loadProject("/shop/a.yaml", memoryWorld({ ...FILES, "/shop/a.yaml": text }));

test("a job with every key becomes a model, and only what is out of date is said", () => {
  const { project, diagnostics, sources } = gathered(FULL_JOB);
  expect(render(diagnostics, sources)).toBe("");
  const { model, diagnostics: said } = buildModel(project!);
  expect(said.map((each) => each.message)).toEqual([]);
  expect(model.stages.map((stage) => [stage.name, stage.sets.map((set) => set.name)])).toEqual([
    ["As received", ["bare"]],
    ["As received again", ["bare"]],
    ["Finished", ["bare", "with pipe"]],
  ]);
  expect(model.stages[2]?.sets[0]?.runs.map((run) => [run.cylinder, run.mount, run.hand])).toEqual([
    [1, 1, undefined],
    [1, 2, undefined],
    [5, 1, "end"],
  ]);
  expect(model.stages[2]?.ports.intake?.portVolumes.map((each) => each.cylinder)).toEqual([1, 2]);
  expect(model.identity).toMatchObject({ revision: 2, draft: true, replaces: "revision 1 of 2026-03-10" });
  expect(model.text.alsoMeasured).toEqual([
    {
      what: "Short-side radius",
      values: [
        { label: "intake", value: "12 mm" },
        { label: "exhaust", value: "9 mm" },
      ],
      how: "radius gauge",
    },
  ]);
  expect(model.text.checks[1]).toEqual({ check: "Flatness", value: "0.0015 in", limit: "0.003 in" });
  expect(model.text.assembly).toEqual([{ what: "Tip height intake", value: "1.612 in" }]);
  expect(model.text.work).toContainEqual({ area: "Deck", items: ["Cut once"] });
  expect(JSON.stringify(model)).not.toContain("the shop's own notes");
  expect(model.compared.map((one) => one.label)).toEqual(["Same casting, standard valves"]);
});

/** Every number of a model is a number. */
const numbersIn = (value: unknown): number[] => {
  if (typeof value === "number") return [value];
  return typeof value === "object" && value !== null ? Object.values(value).flatMap(numbersIn) : [];
};

test("what is accepted can be built: lines left out, values changed, never NaN", () => {
  const lines = FULL_JOB.split("\n");
  let built = 0;
  fc.assert(
    fc.property(
      fc.nat(lines.length - 1),
      fc.nat(6),
      fc.constantFrom("", "0.5", "2", "30", "not measured"),
      (at, count, value) => {
        const kept =
          value === "" ? lines.toSpliced(at, count) : lines.with(at, (lines[at] ?? "").replace(/(?<=: )[\d.]+/, value));
        const { project } = gathered(kept.join("\n"));
        if (!project) return;
        built++;
        expect(numbersIn(buildModel(project).model).every(Number.isFinite)).toBe(true);
      },
    ),
    { numRuns: 60, seed: 6 },
  );
  expect(built).toBeGreaterThan(5);
});
