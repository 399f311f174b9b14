import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { expect, test } from "vitest";
import type { BenchAct } from "../../../src/commands/take/bench-act.ts";
import { applyEdit, editReadings } from "../../../src/commands/take/edit-readings.ts";
import { cellOf, ownerOf, readGrid, stageNames } from "../../../src/commands/take/readings-grid.ts";
import { parseYaml } from "../../../src/parse/yaml/parse-yaml.ts";
import { ROOT } from "../../cli/run.ts";

const HEAD = `job: "1" # kept
stages:
  - name: Finished
    flow: |
      lift   intake  exhaust   # as on the paper
      0.100    40.1     33.0
      0.200    78.4     -      # smudged
      0.400   135.2     97.2
      0.200    79.0     -
`;
const editable = (text: string) => {
  const located = parseYaml("1.yaml", text).document!;
  return { text, located, tables: [] };
};
const run = (text: string, act: BenchAct, stage = "Finished", of?: number): string => {
  const made = editReadings(editable(text), { stage, ...(of === undefined ? {} : { run: of }) }, act);
  if ("fault" in made) throw new Error(made.fault);
  return applyEdit(text, made.edit);
};
/** The lines that differ. */
const changed = (before: string, after: string) => {
  const old = before.split("\n");
  return after.split("\n").filter((line) => !old.includes(line));
};
const reading = (lift: string, typed: string, side: "intake" | "exhaust" = "intake"): BenchAct => ({
  kind: "reading",
  lift,
  side,
  typed,
});

test("a reading between two lifts is a row of its own, under the others' points", () => {
  const after = run(HEAD, reading("0.300", "111.5"));
  expect(changed(HEAD, after)).toEqual(["      0.300   111.5     -"]);
  expect(after.indexOf("0.300")).toBeLessThan(after.indexOf("0.400"));
});

test("below the first lift and above the last", () => {
  expect(run(HEAD, reading("0.050", "20.3")).split("\n")[5]).toBe("      0.050    20.3      -");
  expect(run(HEAD, reading("0.500", "146.3", "exhaust")).split("\n")[8]).toBe("      0.500     -      146.3");
});

test("a `-` without a reason is filled; one with a reason is asked about", () => {
  const job = editable(HEAD);
  expect(editReadings(job, { stage: "Finished" }, reading("0.200", "63.1", "exhaust"))).toMatchObject({ ask: true });
  const after = run(HEAD, { kind: "reading", lift: "0.200", side: "exhaust", typed: "63.1", over: true });
  expect(changed(HEAD, after)).toEqual(["      0.200    78.4     63.1   # smudged"]);
});

test("a repeat takes the open place among the falls, else a row at the end", () => {
  const once = run(HEAD, { kind: "reading", lift: "0.200", side: "exhaust", typed: "62.8", again: true });
  expect(changed(HEAD, once)).toEqual(["      0.200    79.0     62.8"]);
  const twice = run(once, { kind: "reading", lift: "0.200", side: "exhaust", typed: "62.9", again: true });
  expect(twice.split("\n").slice(8)).toEqual(["      0.200    79.0     62.8", "      0.200     -       62.9", ""]);
});

test("a decimal comma is taken as a point; marks stay; what is no number is refused", () => {
  expect(changed(HEAD, run(HEAD, reading("0,3", "111,5?")))).toEqual(["      0.3     111.5?    -"]);
  for (const typed of ["", "abc", "1 2", "12\n- x", "1,234,5", "~5?", "-3", "5 # x"])
    expect(editReadings(editable(HEAD), { stage: "Finished" }, reading("0.300", typed))).toHaveProperty("fault");
});

test("a cell and a reason are replaced where they stand", () => {
  const cell: BenchAct = { kind: "cell", row: 2, side: "intake", typed: "172.4!" };
  expect(changed(HEAD, run(HEAD, cell))).toEqual(["      0.400   172.4!    97.2"]);
  expect(changed(HEAD, run(HEAD, { kind: "reason", row: 1, words: "wet\nhands" }))).toEqual([
    "      0.200    78.4     -      # wet hands",
  ]);
  expect(changed(HEAD, run(HEAD, { kind: "reason", row: 0, words: "new" }))).toEqual([
    "      0.100    40.1     33.0  # new",
  ]);
});

test("the first reading writes head and row; of a new stage its name too", () => {
  const bare = 'job: "1"\nstages:\n  - name: Finished\n    date: 2026-03-02\n';
  expect(run(bare, reading("0.050", "29.3"))).toBe(
    `${bare.trimEnd()}\n    flow: |\n      lift   intake  exhaust\n      0.050    29.3        -\n`,
  );
  expect(run(bare, reading("0.050", "29.3"), "Second")).toBe(
    `${bare.trimEnd()}\n  - name: Second\n    flow: |\n      lift   intake  exhaust\n      0.050    29.3        -\n`,
  );
});

test("a side that the table lacks is a new column", () => {
  const one = HEAD.replace(/ {2}exhaust {3}#.*/, "").replace(/(\d) {4,}(33.0|97.2|-.*)/g, "$1");
  expect(
    run(one, reading("0.200", "63.1", "exhaust"))
      .split("\n")
      .slice(4, 9),
  ).toEqual([
    "      lift   intake  exhaust",
    "      0.100    40.1        -",
    "      0.200    78.4     63.1",
    "      0.400   135.2        -",
    "      0.200    79.0        -",
  ]);
});

const demo = ["alder-lane", "fennick"].flatMap((shop) =>
  readdirSync(join(ROOT, "jobs", shop))
    .filter((name) => name.endsWith(".yaml") && name !== "shop.yaml")
    .map((name) => readFileSync(join(ROOT, "jobs", shop, name), "utf8")),
);
const editions: readonly ((text: string) => string)[] = [
  (text) => text,
  (text) => text.replaceAll("\n", "\r\n"),
  (text) => `\ufeff${text}`,
  (text) => text.replace(/^( {6}[\d.]+.*)$/gm, (line) => `      ${line.trim().replace(/ +/g, "\t")}`),
];
/** Stages and runs of a job whose table stands in it. */
const tablesOf = (text: string) => {
  const job = editable(text);
  return stageNames(job).flatMap((stage, index) =>
    [undefined, 0, 1, 2].flatMap((of) => (readGrid(job, ownerOf(index, of)) ? [{ stage, index, of }] : [])),
  );
};
const typed = fc.oneof(
  fc.integer({ min: 1, max: 3999 }).map((tenths) => (tenths / 10).toFixed(1)),
  fc.constantFrom("-", "~118.2", "97.4?", "101!", "12,5"),
);
const act: fc.Arbitrary<BenchAct> = fc.oneof(
  fc.record({
    kind: fc.constant("reading" as const),
    lift: fc.integer({ min: 1, max: 70 }).map((n) => (n / 100).toFixed(3)),
    side: fc.constantFrom("intake" as const, "exhaust" as const),
    typed,
    again: fc.boolean(),
  }),
  fc.record({
    kind: fc.constant("cell" as const),
    row: fc.nat(12),
    side: fc.constantFrom("intake" as const, "exhaust" as const),
    typed,
  }),
  fc.record({ kind: fc.constant("reason" as const), row: fc.nat(12), words: fc.string({ maxLength: 12 }) }),
);

test("any acts on any demo job: undone the first bytes; done the cells of the grid, and no other line", () => {
  const places = demo.flatMap((text) =>
    editions.flatMap((edition) => tablesOf(edition(text)).map((at) => ({ text: edition(text), ...at }))),
  );
  expect(places.length).toBeGreaterThan(40);
  let done = 0;
  fc.assert(
    fc.property(
      fc.constantFrom(...places),
      fc.array(act, { minLength: 1, maxLength: 4 }),
      ({ text, stage, index, of }, acts) => {
        let now = text;
        const back: { from: number; to: number; insert: string }[] = [];
        for (const one of acts) {
          const before = readGrid(editable(now), ownerOf(index, of))!;
          const made = editReadings(editable(now), { stage, ...(of === undefined ? {} : { run: of }) }, one);
          if ("fault" in made) continue;
          done++;
          const { from, to, insert } = made.edit;
          back.unshift({ from, to: from + insert.length, insert: now.slice(from, to) });
          const next = applyEdit(now, made.edit);
          const after = readGrid(editable(next), ownerOf(index, of))!;
          const words = ({ rows }: typeof before) =>
            rows.map(({ cells, comment }) => [...cells.map((cell) => cell.text), comment?.text ?? ""].join(" "));
          const [was, is] = [words(before), words(after)];
          const kept = is.filter((row) => was.includes(row));
          expect(kept.length).toBeGreaterThanOrEqual(
            is.length - 1 - (after.columns.length - before.columns.length) * is.length,
          );
          if (one.kind !== "reason") {
            const value = one.typed.replace(",", ".");
            expect(after.rows.some((row) => cellOf(after, row, one.side)?.text === value)).toBe(true);
          }
          now = next;
        }
        for (const edit of back) now = applyEdit(now, edit);
        expect(now).toBe(text);
      },
    ),
    { numRuns: 25, seed: 30 },
  );
  expect(done).toBeGreaterThan(30);
});
