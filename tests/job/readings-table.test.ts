import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { render } from "../../src/diagnostics/render.ts";
import type { ReadingsOptions } from "../../src/job/readings/readings-head.ts";
import { parseReadingsTable, readingsRows } from "../../src/job/readings/readings-table.ts";
import { parseDelimited } from "../../src/parse/parse-delimited.ts";
import { parseYaml } from "../../src/parse/yaml/parse-yaml.ts";

const FILE = "job.yaml";
const OPTIONS: ReadingsOptions = {
  units: { length: "in", flow: "cfm", pressure: "inH2O" },
  reads: "flow",
  at: (start, end) => ({ file: FILE, start, end }),
};
const read = (text: string, options: Partial<ReadingsOptions> = {}) =>
  parseReadingsTable(readingsRows(text), { ...OPTIONS, ...options });
const table = (text: string, options: Partial<ReadingsOptions> = {}) => {
  const { table: found, diagnostics } = read(text, options);
  if (!found) throw new Error(render(diagnostics, new Map([[FILE, text]])));
  return found;
};
const faults = (text: string, options: Partial<ReadingsOptions> = {}) =>
  read(text, options).diagnostics.map(({ code, at }) => [code, at && text.slice(at.start, at.end)]);

const INCH = 0.0254;
const CFM = 0.3048 ** 3 / 60;

describe("what is understood", () => {
  const text =
    "lift    intake  exhaust\n0.100    40.1     33.0\n0.300   111.5     -        # smudged\n\n# a line of its own\n0.400   135?   ~97.2 # dropped\n0.500\t146.3!\t103.4 # as read\n";
  const { columns, rows } = table(text);

  test("columns with the units that bare numbers took", () =>
    expect(columns.map(({ name, unit }) => [name, unit])).toEqual([
      ["lift", "in"],
      ["intake", "cfm"],
      ["exhaust", "cfm"],
    ]));
  test("marks, each with its value", () => {
    expect(rows.map(({ readings }) => [readings.intake?.kind, readings.exhaust?.kind])).toEqual([
      ["good", "good"],
      ["good", "missing"],
      ["doubtful", "struck out"],
      ["noisy", "good"],
    ]);
    expect(rows[2]?.readings.exhaust).toMatchObject({ text: "97.2", decimals: 1 });
    expect(rows[2]?.readings.exhaust?.value).toBeCloseTo(97.2 * CFM, 12);
  });
  test("numbers in SI, with the size of their last digit", () => {
    expect(rows[0]?.lift.value).toBeCloseTo(0.1 * INCH, 12);
    expect(rows[0]?.lift).toMatchObject({ text: "0.100", decimals: 3 });
    expect(rows[0]?.readings.intake?.value).toBeCloseTo(40.1 * CFM, 12);
    expect(rows[0]?.readings.intake?.resolution).toBeCloseTo(0.1 * CFM, 12);
  });
  test("a reason belongs to missing and struck-out readings only", () => {
    expect(rows[1]?.readings.exhaust?.reason).toBe("smudged");
    expect(rows[2]?.readings).toMatchObject({ exhaust: { reason: "dropped" } });
    expect(rows[2]?.readings.intake?.reason).toBeUndefined();
    expect(rows[3]?.readings.intake?.reason).toBeUndefined();
  });
  test("places", () => {
    const span = rows[2]?.readings.exhaust?.span;
    expect(text.slice(span?.start, span?.end)).toBe("~97.2");
    expect(text.slice(rows[1]?.span.start, rows[1]?.span.end)).toBe("0.300   111.5     -");
  });
  test.each(["-", "–", "—"])("%s is missing", (mark) =>
    expect(table(`lift intake\n0.1 ${mark}\n`).rows[0]?.readings.intake).toMatchObject({ kind: "missing", text: mark }),
  );

  test.each(["lift/mm exhaust/l/s", "lift(mm) exhaust(l/s)", "lift (mm)  exhaust (l/s)", "LIFT/MM Exhaust[L/s]"])(
    "units in the head: %s",
    (head) => {
      const row = table(`${head}\n5 20\n`).rows[0];
      expect(row?.lift.value).toBeCloseTo(0.005, 12);
      expect(row?.readings.exhaust?.value).toBeCloseTo(0.02, 12);
    },
  );

  test("pressure and range: one column for both sides, or one each", () => {
    const [both] = table("lift intake exhaust pressure range\n0.1 40 30 25 3\n").rows;
    expect(both?.pressure.intake?.value).toBeCloseTo(25 * 249.08891, 9);
    expect(both?.pressure.exhaust).toEqual(both?.pressure.intake);
    expect(both?.range).toMatchObject({ intake: { text: "3" }, exhaust: { text: "3" } });
    const [each] = table("lift intake exhaust pressure_i pressure range_e\n0.1 40 30 10 25 2b\n").rows;
    expect(each?.pressure.intake?.text).toBe("10");
    expect(each?.pressure.exhaust?.text).toBe("25");
    expect(each?.range).toEqual({ exhaust: expect.objectContaining({ text: "2b" }) });
  });

  test("a percent bench", () => {
    const [row] = table("lift intake range_i\n0.1 45.5 3\n", { reads: "percent" }).rows;
    expect(row?.readings.intake?.value).toBeCloseTo(0.455, 12);
    expect(row?.readings.intake?.resolution).toBeCloseTo(0.001, 12);
  });

  test("a lift typed again, and a falling sweep, are repeats", () => {
    const repeats = (lifts: string) =>
      table(
        `lift intake\n${lifts
          .split(" ")
          .map((lift) => `${lift} 9`)
          .join("\n")}`,
      ).rows.map((row) => row.repeat);
    expect(repeats("0.1 0.2 0.2 0.3")).toEqual([false, false, true, false]);
    expect(repeats("0.1 0.2 0.3 0.25 0.1")).toEqual([false, false, false, true, true]);
    expect(repeats("0.1 0.3 0.3 0.1 0.3")).toEqual([false, false, true, true, true]);
  });

  test("a spreadsheet's file, its empty cells missing", () => {
    const file = "\ufefflift;intake;exhaust;\r\n0.1;40.1;;\r\n0.2;~78.4;- # stuck;\r\n";
    const { rows: cells } = parseDelimited(FILE, file);
    const { table: found, diagnostics } = parseReadingsTable(cells, OPTIONS);
    expect(diagnostics).toEqual([]);
    expect(
      found?.rows.map(({ readings }) => [readings.intake?.kind, readings.exhaust?.kind, readings.exhaust?.reason]),
    ).toEqual([
      ["good", "missing", undefined],
      ["struck out", "missing", "stuck;"],
    ]);
  });
});

describe("a table that is being typed", () => {
  const growing = (text: string) => {
    const { table: found, diagnostics } = read(text, { grows: true });
    return [
      found?.rows.map(({ readings }) => [readings.intake?.kind, readings.exhaust?.kind]),
      diagnostics.map(({ severity, code, message }) => (severity === "warning" ? message : code)),
    ];
  };
  const [both, first, none] = [
    ["good", "good"],
    ["good", "missing"],
    ["missing", "missing"],
  ];
  test.each<[string, string, unknown[]]>([
    ["a side at a time", "0.1 40\n0.2 50\n", [[first, first], ["the last 2 rows have no exhaust"]]],
    ["completed from its top", "0.1 40 33\n0.2 50\n", [[both, first], ["the last row has no exhaust"]]],
    ["row by row", "0.1 40 33\n0.2 50 40\n0.3\n", [[both, both, none], ["the last row has no intake and no exhaust"]]],
    ["a short row above a whole one", "0.1 40\n0.2 50 40\n", [undefined, ["job/readings-row"]]],
    ["two numbers without a blank", "0.1 40.1 33.0\n0.20050.1\n", [undefined, ["job/readings-row"]]],
  ])("%s", (_, rows, expected) => expect(growing(`lift intake exhaust\n${rows}`)).toEqual(expected));
  test("a column that is no side stays asked for", () =>
    expect(growing("lift intake pressure\n0.1 40\n")).toEqual([undefined, ["job/readings-row"]]));
});

describe("what is refused", () => {
  test.each<[string, string, [string, string][]]>([
    ["nothing at all", "\n# x\n", [["job/readings-head", ""]]],
    ["no head", "0.1 40\n0.2 50\n", [["job/readings-head", "0.1 40"]]],
    ["a head alone", "lift intake\n", [["job/readings-head", "lift intake"]]],
    ["no lift", "intake exhaust\n1 2\n", [["job/readings-head", "intake exhaust"]]],
    ["no side", "lift pressure\n1 2\n", [["job/readings-head", "lift pressure"]]],
    ["an unknown column", "lift intkae\n1 2\n", [["job/readings-column", "intkae"]]],
    ["two columns of one name", "lift intake Intake\n1 2 3\n", [["job/readings-column-twice", "Intake"]]],
    ["a unit of another kind", "lift/cfm intake\n1 2\n", [["job/readings-unit", "lift/cfm"]]],
    ["a unit on a range", "lift intake range/mm\n1 2 3\n", [["job/readings-unit", "range/mm"]]],
    ["a short row", "lift intake exhaust\n0.1 40\n", [["job/readings-row", "0.1 40"]]],
    ["a long row", "lift intake\n0.1 40 33 2\n", [["job/readings-row", "33 2"]]],
    ["not a number", "lift intake\n0.1 4O\n", [["units/not-a-number", "4O"]]],
    ["a word", "lift intake\n0.1 wet\n", [["units/not-a-number", "wet"]]],
    ["a mark alone", "lift intake\n0.1 ?\n", [["units/not-a-number", "?"]]],
    [
      "two marks",
      "lift intake\n0.1 ~40?\n0.2 40?!\n",
      [
        ["job/readings-mark", "~40?"],
        ["job/readings-mark", "40?!"],
      ],
    ],
    ["a marked lift", "lift intake\n0.1? 40\n", [["job/readings-lift", "0.1?"]]],
    ["a missing lift", "lift intake\n- 40\n", [["job/readings-lift", "-"]]],
    ["no lift at all", "lift intake\n0 4\n0.1 40\n", [["job/readings-lift", "0"]]],
    ["a negative lift", "lift intake\n-0.1 40\n", [["job/readings-lift", "-0.1"]]],
    ["a negative flow", "lift intake\n0.1 -40\n", [["job/readings-value", "-40"]]],
    ["no pressure", "lift intake pressure\n0.1 40 0\n", [["job/readings-value", "0"]]],
    [
      "lifts that fall before the highest",
      "lift intake\n0.1 40\n0.3 90\n0.2 70\n0.4 100\n",
      [["job/readings-lift-order", "0.2"]],
    ],
    ["the same comma in every row is one slip", "lift intake\n0,1 40,1\n0,2 50,1\n", [["units/decimal-comma", "0,1"]]],
    [
      "several slips at once",
      "lift intake\n0.1 x\n0.2\n0.3 4 5\n",
      [
        ["units/not-a-number", "x"],
        ["job/readings-row", "0.2"],
        ["job/readings-row", "5"],
      ],
    ],
  ])("%s", (_, text, expected) => expect(faults(text)).toEqual(expected));

  test("no unit known is reported once a table", () =>
    expect(faults("lift intake\n0.1 40\n0.2 50\n", { units: { flow: "cfm" } })).toEqual([
      ["units/missing-unit", "0.1"],
    ]));
  test("a flow's unit on a percent bench", () =>
    expect(faults("lift intake/cfm\n0.1 40\n", { reads: "percent" })).toEqual([["job/readings-unit", "intake/cfm"]]));

  test("the whole of some messages, caret inside the block", () => {
    const text =
      "stages:\n  - name: A\n    flow: |\n      lift    intake  exhaust\n      0.100    40.1     33.0\n      0.300   111.5\n      0.400   13O.5     97.2\n";
    const path = ["stages", 0, "flow"];
    const document = parseYaml(FILE, text).document!;
    const block = (document.value as { stages: { flow: string }[] }).stages[0]!.flow;
    const { diagnostics } = parseReadingsTable(readingsRows(block), {
      ...OPTIONS,
      at: (start, end) => document.textSpan(path, start, end),
    });
    expect(render(diagnostics, new Map([[FILE, text]]))).toMatchInlineSnapshot(`
      "error[job/readings-row]: row \`0.300\` has 2 values, the head names 3 columns
       --> job.yaml:6:7
      6 |       0.300   111.5
        |       ^^^^^^^^^^^^^
        = hint: write - for a reading that was not taken

      error[units/not-a-number]: \`13O.5\` has a letter among its digits
       --> job.yaml:7:15
      7 |       0.400   13O.5     97.2
        |               ^^^^^
        = hint: did you mean 130.5?"
    `);
  });
});

const decimal = (low: number, high: number, decimals: number) =>
  fc.integer({ min: low, max: high }).map((digits) => (digits / 10 ** decimals).toFixed(decimals));
const mark = fc.constantFrom<[string, string, string]>(
  ["", "", "good"],
  ["", "?", "doubtful"],
  ["", "!", "noisy"],
  ["~", "", "struck out"],
);
const cell = fc.oneof(
  fc
    .tuple(mark, decimal(0, 9999, 1))
    .map(([[before, after, kind], number]) => ({ kind, number, typed: before + number + after })),
  fc.constantFrom("-", "–", "—").map((typed) => ({ kind: "missing", number: typed, typed })),
);
const sweep = fc
  .uniqueArray(fc.integer({ min: 1, max: 999 }), { minLength: 1, maxLength: 12 })
  .map((lifts) => lifts.toSorted((a, b) => a - b).map((lift) => (lift / 1000).toFixed(3)));

test("law: a table written and read is itself, between blanks, tabs, commas and semicolons", () =>
  fc.assert(
    fc.property(
      sweep.chain((lifts) =>
        fc.tuple(
          fc.constant(lifts),
          fc.array(fc.tuple(cell, cell), { minLength: lifts.length, maxLength: lifts.length }),
        ),
      ),
      fc.constantFrom("  ", "\t", ",", ";"),
      ([lifts, cells], gap) => {
        const rows = lifts.map((lift, at) => [lift, cells[at]![0].typed, cells[at]![1].typed]);
        const text = [["lift", "intake", "exhaust"], ...rows].map((row) => row.join(gap)).join("\n");
        const cellRows = gap.trim() === "" ? readingsRows(text) : parseDelimited(FILE, text).rows;
        const { table: found, diagnostics } = parseReadingsTable(cellRows, OPTIONS);
        expect(diagnostics).toEqual([]);
        expect(found?.rows.map((row) => [row.lift.text, row.readings.intake, row.readings.exhaust])).toMatchObject(
          lifts.map((lift, at) => [lift, ...cells[at]!.map(({ kind, number }) => ({ kind, text: number }))]),
        );
      },
    ),
    { seed: 1 },
  ));

test("law: no text throws; either a table or an error comes back, and errors stand inside the text", () =>
  fc.assert(
    fc.property(
      fc.oneof(
        fc.string(),
        fc
          .string({ unit: fc.constantFrom(..."01.,-~?!#/()[] \t\n", "lift", "intake", "exhaust", "mm", " ", "\n0.1 ") })
          .map((text) => `lift intake\n${text}`),
        fc.string({ unit: fc.constantFrom(..."01.,-~?!#/()[] \t\n", "lift", "intake", "range", " ") }),
      ),
      fc.constantFrom<ReadingsOptions["reads"]>("flow", "percent"),
      (text, reads) => {
        const { table: found, diagnostics } = read(text, { reads });
        expect(found === undefined).toBe(diagnostics.length > 0);
        for (const { at } of diagnostics) expect(at!.start <= at!.end && at!.end <= text.length).toBe(true);
        for (const row of found?.rows ?? []) expect(row.lift.value).toBeGreaterThan(0);
      },
    ),
    { seed: 1, numRuns: 1000 },
  ));
