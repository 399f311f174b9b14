import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { parse } from "yaml";
import { parseCylinder, parseLifts } from "../../../src/commands/form.ts";
import { jsonSchema } from "../../../src/job/json-schema.ts";
import { starterJob } from "../../../src/job/starter/starter.ts";
import { FORM_KEYS, SET_UP_KEYS } from "../../../src/model/form/form-keys.ts";
import { formLifts } from "../../../src/model/form/form-lifts.ts";
import { inProcess, ROOT, scratch } from "../../cli/run.ts";
import { demo } from "../../whole/demo.ts";
import { bare, drawn, formOf, put, words } from "./form-of.ts";

const ALDER = demo("alder-lane/2026-014.yaml");
const folder = scratch();
let alder: Awaited<ReturnType<typeof formOf>>;
beforeAll(async () => {
  alder = await formOf(ALDER);
});

describe("content of the form", () => {
  /** Keys that can wait until the job is typed: a new key of the schema has to be put here, or on the form. */
  const LATER: Readonly<Record<string, readonly string[]>> = {
    "": "product sheet revision replaces because draft units paper heads engine report may_compare delivered compare heads_of opinion samples checks also_measured parts valve_train_limits agreed assembly photos cautions internal bench".split(
      " ",
    ),
    customer: ["email", "phone", "address", "reference"],
    head: ["material", "numbering"],
    stages: ["repeats", "chambers", "valve_train", "layout"],
    "stages.deck": ["cut_before"],
    springs: ["mass", "intake", "exhaust"],
    guides: ["clearance"],
    "stages.bench":
      "name reads meter ranges attached accuracy repeatability remount lift_setting resolution check_plate checked against".split(
        " ",
      ),
    "stages.bench.leakage": ["how", "test_pressure"],
    "stages.bench.air": [],
    "stages.runs": ["set", "hand", "mount", "bench", "flow", "file"],
    "stages.intake": "valves ports feeds sections port_volumes port_length added".split(" "),
    "stages.exhaust": "valves ports feeds sections port_volumes port_length added".split(" "),
    "stages.intake.seat": ["form"],
    "stages.exhaust.seat": ["form"],
  };
  type Schema = {
    properties?: Record<string, Schema>;
    items?: Schema;
    anyOf?: Schema[];
    $ref?: string;
    $defs?: Record<string, Schema>;
  };
  const root = jsonSchema("job") as Schema;
  /** The map that a schema is, or that one of its forms or entries is. */
  const mapOf = (schema: Schema | undefined): Record<string, Schema> | undefined =>
    schema?.properties ??
    (schema?.items && mapOf(schema.items)) ??
    schema?.anyOf?.map(mapOf).find((found) => found !== undefined);
  const at = (path: string) =>
    path === "" ? root.properties! : path.split(".").reduce<Schema>((one, name) => mapOf(one)![name]!, root);

  test("every key of the schema is on it, or listed here as one that can wait", () => {
    for (const [map, later] of Object.entries(LATER)) {
      const known = map === "" ? root.properties! : mapOf(at(map) as Schema)!;
      const asked = [...FORM_KEYS, ...SET_UP_KEYS]
        .filter(({ path }) => map === "" || path.startsWith(`${map}.`))
        .map(({ path }) => path.slice(map === "" ? 0 : map.length + 1).split(".")[0]!);
      expect([map, [...new Set([...asked, ...later])].sort()]).toEqual([map, Object.keys(known).sort()]);
    }
  });

  test("the short set of the starter and of the README stands on it in the order in which it is typed", () => {
    const readme = readFileSync(join(ROOT, "README.md"), "utf8").match(/```yaml\n(job: [\s\S]*?)```/)![1]!;
    for (const text of [starterJob({ number: "1", issued: "2026-01-01" }), readme]) {
      const typed = keysOf({
        ...parse(text),
        draft: undefined,
        units: undefined,
        bench: undefined,
      });
      const asked = FORM_KEYS.map(({ path }) => path);
      expect(typed.filter((path) => !asked.includes(path))).toEqual([]);
      expect(asked.filter((path) => typed.includes(path))).toEqual(typed);
      expect(typed.length).toBeGreaterThan(14);
    }
  });
  /** Paths of a job's leaves as typed; of its stages the first, which states all. */
  function keysOf(value: object, before = ""): string[] {
    return Object.entries(value).flatMap(([name, inner]) => {
      const path = before + name;
      if (inner === undefined || inner === null) return [];
      if (name === "work" || name === "not_done") return [path];
      if (Array.isArray(inner)) return keysOf(inner[0] as object, `${path}.`);
      return typeof inner === "object" ? keysOf(inner, `${path}.`) : [path];
    });
  }

  test("every label is on the page, the blanks from top to bottom in that order", () => {
    const [page] = alder.pages;
    const places = FORM_KEYS.filter(({ path }) => !/^stages\.(intake|exhaust|flow)/.test(path)).map(({ label }) => {
      const found = page!.texts.find(({ text }) => text.trim() === label || text.startsWith(`${label}, of`));
      expect([label, found !== undefined]).toEqual([label, true]);
      return found!;
    });
    places.slice(1).forEach((place, i) => {
      const before = places[i]!;
      expect(place.y > before.y + 5 || (Math.abs(place.y - before.y) < 1 && place.x > before.x)).toBe(true);
    });
    for (const { label } of FORM_KEYS.filter(({ path }) => path.startsWith("stages.intake.")))
      expect(words(alder.pages)).toMatch(new RegExp(`^${label.replaceAll(".", "\\.")}`, "m"));
  });
});

describe("a job that asks for a set-up sheet", () => {
  test("has a page of its own: a row for each valve, boxes for springs, deck and seats, springs as stated", () => {
    const page = words(alder.pages.slice(1)).split("\n");
    expect(alder.pages).toHaveLength(2);
    for (const valve of ["1I", "1E", "2I", "2E", "3I", "3E", "4I", "4E"]) expect(page).toContain(valve);
    for (const { label } of SET_UP_KEYS) expect(page.join("\n")).toContain(label);
    for (const stated of ["single, damper; S-442", "242", "lbf/in", "1.560", "84", "188", "1.020"])
      expect(page).toContain(stated);
  });

  test("of a five-valve head: a row for each of its twenty valves; a job without one has no such page", async () => {
    const five = await formOf(demo("fennick/f-260.yaml"));
    const rows = words(five.pages.slice(1))
      .split("\n")
      .filter((line) => /^[1-4](I[abc]|E[ab])$/.test(line));
    expect(new Set(rows).size).toBe(20);
    expect((await formOf(demo("fennick/f-231.yaml"))).pages).toHaveLength(1);
  });
});

describe("printed values of the form", () => {
  test("what the job says is printed, with the unit beside each blank; another day's air is not", () => {
    const text = words(alder.pages);
    for (const said of ["2026-014", "2026-03-18", "H. Ashgrove", "Two-valve alloy four", "4471-B", "25", "clay radius"])
      expect(text.split("\n")).toContain(said);
    expect(text).toContain("Valve in");
    expect(text).toContain("inHg");
    expect(text).toContain("118? doubtful, ~118.5 struck out, 118! unsteady, - not taken");
    expect(text).toContain("extraction on, eye and breathing protection on. Edges are sharp");
    expect(text).toContain("Lifts as in Finished.");
    expect(text.split("\n").filter((line) => line === "0.350")).toHaveLength(1);
    expect(text.split("\n")).not.toContain("29.80");
  });

  test("without readings: the usual steps, up to the cam, or to 0.30 of the valve, in the job's own unit", () => {
    const lifts = (path: string) => {
      const { model } = drawn(path);
      const { at, from } = formLifts(model, model.stages[0]);
      return [from.kind, at.length, Number(at[0]!.toFixed(6)), Number(at.at(-1)!.toFixed(6))];
    };
    const stage = "stages: [ { name: In, intake: { valve: 42 mm, throat: 36 mm } } ]\n";
    // Hand calculation: 0.30 × 42 mm = 12.6 mm, so 13 mm; 0.50 in / 0.05 in = 10 steps to 12.7 mm.
    expect(lifts(bare(folder, `units: { length: mm }\n${stage}`))).toEqual(["valve", 13, 0.001, 0.013]);
    const cam = "engine: { intake_cam: { net_lift: 0.500 in } }\n";
    expect(lifts(bare(folder, `units: { length: in }\n${cam}${stage}`))).toEqual(["cam", 10, 0.00127, 0.0127]);
    expect(lifts(bare(folder, "units: { length: in }\nstages: [ { name: In } ]\n"))).toEqual([
      "neither",
      12,
      0.00127,
      0.01524,
    ]);
  });
});

describe("as a sheet of paper", () => {
  test("boxes are high and wide enough for a pencil: at least 8 mm, and 20 mm for ~118.5", () => {
    const rows = alder.pages[0]!.texts.filter(({ text }) => /^0\.\d50$|^0\.\d00$/.test(text.trim()));
    const steps = rows.slice(1).map(({ y }, i) => ((y - rows[i]!.y) * 25.4) / 72);
    expect(Math.min(...steps)).toBeGreaterThanOrEqual(8);
    const first = alder.pages[0]!.texts.find(({ text }) => text.trim() === "1st")!;
    const second = alder.pages[0]!.texts.find(({ text }) => text.trim() === "2nd")!;
    expect(((second.x - first.x) * 25.4) / 72).toBeGreaterThan(20);
  });

  test("black only, no line under 0.5 pt, nothing filled", () => {
    for (const { paths } of alder.pages)
      for (const { stroke, fill } of paths) {
        expect(fill).toBeUndefined();
        expect(stroke!.color).toMatch(/^#0{6}$/);
        expect(stroke!.width).toBeGreaterThanOrEqual(0.5);
      }
    expect(alder.pages[0]!.paths.length).toBeGreaterThan(60);
  });
});

describe("as a command", () => {
  test("a broken job is refused like `make` refuses it", async () => {
    put(folder, "broken.yaml", "job: x\nissued: 2026-02-30\ncustomer: { name: A }\n");
    const [form, made] = [
      await inProcess(["form", "broken.yaml"], folder),
      await inProcess(["make", "broken.yaml"], folder),
    ];
    expect(form.code).toBe(1);
    expect(form.out).toBe("");
    expect(made.err.startsWith(form.err)).toBe(true);
  });

  test("lifts and cylinders as typed: rising, units welcome, else wrong use", () => {
    expect(parseLifts("0.1, 0.2 8mm", "in").map((lift) => Number(lift.toFixed(6)))).toEqual([0.00254, 0.00508, 0.008]);
    expect(() => parseLifts("0.2 0.1", "in")).toThrow("must rise");
    expect(() => parseLifts("0 0.1", "in")).toThrow("not above zero");
    expect(() => parseLifts("a", "in")).toThrow("--lifts");
    expect(() => parseLifts(" ", "in")).toThrow("1 to 60 lifts");
    expect(() => parseCylinder("0", undefined)).toThrow("whole number");
    expect(() => parseCylinder("5", 4)).toThrow("has 4 cylinders");
    expect(parseCylinder("4", 4)).toBe(4);
  });
});
