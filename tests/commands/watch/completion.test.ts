import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { completionsAt, type Schema } from "../../../src/commands/watch/page/completions.ts";
import { placeAtEnd } from "../../../src/commands/watch/page/place-in-yaml.ts";
import { disk } from "../../../src/io/disk.ts";
import { parseYaml } from "../../../src/parse/yaml/parse-yaml.ts";
import { listJobs } from "../../../src/project/list-jobs.ts";
import { ROOT } from "../../cli/run.ts";

const schema = JSON.parse(readFileSync(join(ROOT, "schemas", "job.schema.json"), "utf8")) as Schema;
const at = (text: string) => {
  const place = placeAtEnd(text);
  return place && `${place.path.join(".")} ${place.kind} <${place.word}>`;
};

describe("the place in a job", () => {
  test.each([
    ["", " key <>"],
    ["iss", " key <iss>"],
    ["job: 1\nhead:\n  na", "head key <na>"],
    ["job: 1\nhead:\n  name: a\n  sta", "head key <sta>"],
    ["head:\n  name: a\nsta", " key <sta>"],
    ["stages:\n  - name: a\n    int", "stages.[] key <int>"],
    ["stages:\n- name: a\n  int", "stages.[] key <int>"],
    ["stages:\n- name: a\nwo", " key <wo>"],
    ["stages:\n  - na", "stages.[] key <na>"],
    ["stages:\n  - intake: { valve: 1, se", "stages.[].intake key <se>"],
    ["stages:\n  - intake: { valve: 1, seat: { angle: 45 deg, wi", "stages.[].intake.seat key <wi>"],
    ["stages:\n  - intake: { valve: 1, seat: { angle: 45 deg }, th", "stages.[].intake key <th>"],
    ["head: { material: alu", "head.material value <alu>"],
    ["sheet: [handover, att", "sheet.[] value <att>"],
    ["sheet:\n  - hand", "sheet.[] key <hand>"],
    ["compare:\n  - { job: a.yaml,\n      st", "compare.[] key <st>"],
    ["compare: [ { job: a.yaml }, { la", "compare.[] key <la>"],
    ["paper: A", "paper value <A>"],
    ["paper: ", "paper value <>"],
    ["stages:\n  - flow: |\n      lift intake\n      0.1 40\n    ex", "stages.[] key <ex>"],
    ["\"job\": 1\n'issued': 2\nhe", " key <he>"],
    ["job: 1 # a # b: {\nhe", " key <he>"],
    ["head:\r\n  na", "head key <na>"],
  ])("%j", (text, place) => expect(at(text)).toBe(place));

  test.each([
    ["a table", "stages:\n  - flow: |\n      lift int"],
    ["an empty line of a table", "stages:\n  - flow: |\n      lift\n      "],
    ["a comment", "job: 1 # iss"],
    ["quotes", 'job: "iss'],
    ["quotes in brackets", 'head: { name: "a, b: c'],
    ["a value without its blank", "paper:"],
  ])("none in %s", (_, text) => expect(at(text)).toBeUndefined());

  test("keys that stand beside are known, list entry by list entry", () => {
    expect([...placeAtEnd("stages:\n  - name: a\n    date: b\n  - name: c\n    ")!.beside]).toEqual(["name"]);
    expect([...placeAtEnd("head: { name: a, stamped: b, ")!.beside]).toEqual(["name", "stamped"]);
  });

  // The other way round, from outside: whatever the YAML reader finds in the demo jobs, the place leads to.
  test("at the end of every line of the demo jobs, the keys above are keys that the YAML reader finds there", () => {
    let places = 0;
    for (const path of listJobs(join(ROOT, "jobs"), disk)) {
      const text = readFileSync(path, "utf8");
      const { document } = parseYaml(path, text);
      const lines = text.split("\n");
      for (let end = 1; end <= lines.length; end++) {
        const place = placeAtEnd(lines.slice(0, end).join("\n"));
        if (!place || place.word === "") continue;
        let here: readonly unknown[] = [document!.value];
        for (const step of place.path)
          here = here.flatMap((one) =>
            step === "[]"
              ? Array.isArray(one)
                ? one
                : []
              : one !== null && typeof one === "object" && step in one
                ? [(one as Record<string, unknown>)[step]]
                : [],
          );
        expect([path, end, place.path, here.length > 0]).toEqual([path, end, place.path, true]);
        places++;
      }
    }
    expect(places).toBeGreaterThan(200);
  });
});

describe("what is offered", () => {
  const labels = (text: string) => completionsAt(placeAtEnd(text)!, schema).map(({ label }) => label);

  test("keys with what they mean, but none that stands there already", () => {
    const offers = completionsAt(placeAtEnd("job: 1\n")!, schema);
    expect(offers.map(({ label }) => label)).toEqual(
      expect.arrayContaining(["issued", "customer", "stages", "compare"]),
    );
    expect(offers.map(({ label }) => label)).not.toContain("job");
    expect(offers.find(({ label }) => label === "issued")?.about).toContain("date on the sheet");
  });
  test("keys inside brackets, lists and alternatives", () => {
    expect(labels("stages:\n  - name: a\n    intake: { ")).toEqual(expect.arrayContaining(["valve", "throat", "seat"]));
    expect(labels("stages:\n  - name: a\n    intake: { seat: { ")).toEqual(expect.arrayContaining(["angle", "width"]));
    expect(labels("heads:\n  - ")).toEqual(expect.arrayContaining(["id", "stamped", "cylinders"]));
  });
  test("values where only some are allowed", () => {
    expect(labels("paper: ")).toEqual(expect.arrayContaining(["A4", "Letter"]));
    expect(labels("bench: { reads: ")).toEqual(expect.arrayContaining(["flow", "percent"]));
    expect(labels("draft: ")).toEqual(expect.arrayContaining(["true", "false"]));
  });
  test("nothing where nothing is known", () => expect(labels("nowhere: { here: { ")).toEqual([]));
});
