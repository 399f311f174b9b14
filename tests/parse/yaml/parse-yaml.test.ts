import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { render } from "../../../src/diagnostics/render.ts";
import { parseYaml } from "../../../src/parse/yaml/parse-yaml.ts";
import type { Path, YamlValue } from "../../../src/parse/yaml/source-document.ts";
import { HOSTILE_TEXTS } from "./hostile-texts.ts";

const FILE = "job.yaml";
const document = (text: string) => {
  const { document: read, diagnostics } = parseYaml(FILE, text);
  if (!read) throw new Error(render(diagnostics, new Map([[FILE, text]])));
  return read;
};
const faults = (text: string) =>
  parseYaml(FILE, text).diagnostics.map(({ code, severity, at }) => [
    severity === "warning" ? `warning ${code}` : code,
    at && text.slice(at.start, at.end),
  ]);
const demos = ["alder-lane", "fennick"].flatMap((shop) =>
  readdirSync(join("jobs", shop))
    .filter((name) => name.endsWith(".yaml"))
    .map((name) => ({ name, typed: readFileSync(join("jobs", shop, name), "utf8") })),
);
const scalars = (value: YamlValue, path: Path = []): { path: Path; value: string }[] =>
  typeof value === "string"
    ? [{ path, value }]
    : Object.entries(value).flatMap(([key, inner]) =>
        scalars(inner, [...path, Array.isArray(value) ? Number(key) : key]),
      );
const rendered = (text: string) => render(parseYaml(FILE, text).diagnostics, new Map([[FILE, text]]));

describe("values", () => {
  test("every scalar is the text as typed", () =>
    expect(document("job: 012\na: 12.10\nb: ~\nc: null\nd: 1e3\ne: yes\nf: 2026-03-18\ng: 'it''s'\n").value).toEqual({
      job: "012",
      a: "12.10",
      b: "~",
      c: "null",
      d: "1e3",
      e: "yes",
      f: "2026-03-18",
      g: "it's",
    }));
  test("an empty value is an absent key, an empty item no item, an empty file an empty map", () => {
    expect(document('a:\nb: ""\nc: |\nd: {x: , y: 1}\ne:\n  -\n  - z\n').value).toEqual({ d: { y: "1" }, e: ["z"] });
    expect(document("").value).toEqual({});
    expect(document("# only a comment\n").value).toEqual({});
  });
  test("a text in brackets may have a comma", () => {
    const text = "a: { caption: Chamber 1, finished, file: x.jpg }\nb: { label: Same casting, standard valves }\n";
    const read = document(text);
    expect(read.value).toEqual({
      a: { caption: "Chamber 1, finished", file: "x.jpg" },
      b: { label: "Same casting, standard valves" },
    });
    const span = read.textSpan(["a", "caption"], 11, 19);
    expect(text.slice(span.start, span.end)).toBe("finished");
  });
  test("maps have no prototype and keep their order", () => {
    const { value } = document("b: 1\na: { d: 1, c: 2 }\n");
    expect(Object.getPrototypeOf(value)).toBeNull();
    expect(Object.keys(value)).toEqual(["b", "a"]);
  });
  test("a byte order mark and Windows line ends raise no error", () =>
    expect(document("\ufeffa: |\r\n  x\r\n  y\r\nb: 1\r\n").value).toEqual({ a: "x\ny\n", b: "1" }));
});

describe("places", () => {
  const text = "head: { name: X }\nstages:\n  - name: A\n    intake:\n      valve: 1.654\n      throat:\n  - {}\n";
  const at = (span: { start: number; end: number }) => text.slice(span.start, span.end);
  const read = document(text);
  test("of a value and of its key", () => {
    expect(at(read.span(["stages", 0, "intake", "valve"]))).toBe("1.654");
    expect(at(read.keySpan(["stages", 0, "intake", "valve"]))).toBe("valve");
  });
  test("of every value and key of the demo jobs", () => {
    for (const { name, typed } of demos) {
      const job = document(typed);
      for (const { path, value } of scalars(job.value)) {
        const place = job.span(path);
        const key = job.keySpan(path);
        const said = typed.slice(place.start, place.end);
        const isBlock = job.isLiteralBlock(path);
        expect(
          isBlock ? said.startsWith("|") : said.replace(/^(["'])(.*)\1$/s, "$2") === value,
          `${name} ${path}`,
        ).toBe(true);
        const last = path.at(-1);
        if (typeof last === "string") expect(typed.slice(key.start, key.end)).toBe(last);
      }
    }
  });
  test("of a missing key: its parent's key", () => {
    expect(at(read.span(["stages", 0, "intake", "stem"]))).toBe("intake");
    expect(at(read.span(["head", "stamped", "deeper"]))).toBe("head");
    expect(at(read.span(["stages", 0, "exhaust"]))).toBe("name");
    expect(at(read.span(["stages", 1, "name"]))).toBe("{}");
    expect(at(read.span(["job"]))).toBe("head");
  });
  test("of a key with nothing behind it: the key", () =>
    expect(at(read.span(["stages", 0, "intake", "throat"]))).toBe("throat"));
  test("of part of a text", () => {
    expect(at(read.textSpan(["stages", 0, "intake", "valve"], 2, 4))).toBe("65");
    const quoted = 'a: "b c"\nd: "x\\ny"\n';
    const other = document(quoted);
    const span = other.textSpan(["a"], 2, 3);
    expect(quoted.slice(span.start, span.end)).toBe("c");
    const whole = other.textSpan(["d"], 0, 1); // an escape hides the place
    expect(quoted.slice(whole.start, whole.end)).toBe('"x\\ny"');
  });
  test.each(["\n", "\r\n"])("of part of a literal block, line ends %j", (end) => {
    const block = [
      "a:",
      "  flow: |  # readings",
      "",
      "      lift intake",
      "        0.1  40",
      "",
      "      0.2  -",
      "b: 1",
      "",
    ].join(end);
    const tables = document(block);
    const value = (tables.value as { a: { flow: string } }).a.flow;
    expect(value).toBe("\nlift intake\n  0.1  40\n\n0.2  -\n");
    expect(tables.isLiteralBlock(["a", "flow"])).toBe(true);
    expect(tables.isLiteralBlock(["b"])).toBe(false);
    for (const word of ["lift", "intake", "0.1", "40", "0.2", "-", "0.1  40"]) {
      const from = value.indexOf(word);
      const span = tables.textSpan(["a", "flow"], from, from + word.length);
      expect(block.slice(span.start, span.end)).toBe(word);
    }
  });
  test("a folded block, or none, is not a literal block", () => {
    expect(document("flow: >\n  lift intake\n  0.1 40\n").isLiteralBlock(["flow"])).toBe(false);
    expect(document("flow:\n  lift intake\n  0.1 40\n").isLiteralBlock(["flow"])).toBe(false);
  });
});

/** Each with the text at its span. */
describe("what is refused", () => {
  test.each<[string, string, [string, string]]>([
    ["a directive", "%YAML 1.1\n---\na: 1\n", ["source/directive", "%YAML 1.1"]],
    ["a tag", "a: !!int 3\n", ["source/tag", "!!int"]],
    ["a tag that was meant as text", "a: !important\n", ["source/tag", "!important"]],
    ["an anchor", "a: &x 1\n", ["source/anchor", "&x"]],
    ["an alias", "c: *y\n", ["source/alias", "*y"]],
    ["a merge key", "b:\n  <<: { x: 1 }\n", ["source/merge-key", "<<"]],
    ["a key that is no key", "__proto__: { a: 1 }\n", ["source/key", "__proto__"]],
    ["a list as key", "? [a]\n: 1\n", ["source/key", "[a]"]],
    ["no key", ": 1\n", ["source/key", ":"]],
    ["a duplicate key", "a: 1\nb: 2\na: 3\n", ["source/duplicate-key", "a"]],
    ["a second document", "a: 1\n---\nb: 2\n", ["source/several-documents", "---"]],
    ["a file that is no map", "hello\n", ["source/not-a-map", "hello"]],
    ["a file that is a list", "- a\n- b\n", ["source/not-a-map", "- a"]],
    ["a tab as indent", "a:\n\tb: 1\n", ["source/tab", "\t"]],
    ["two colons", "name: Foo: bar\n", ["source/two-colons", "Foo: bar"]],
    ["a missing double quote", 'a: "abc\nb: 1\n', ["source/quotes", '"abc']],
    ["a missing single quote", "a: 'abc\nb: 1\n", ["source/quotes", "'abc"]],
    ["a missing ]", "a: [1, 2\nb: 1\n", ["source/bracket", "["]],
    ["a missing }", "a: { x: 1, y: 2\nb: 1\n", ["source/bracket", "{"]],
    ["a bracket never opened", "a: ] x\nb: 1\n", ["source/bracket", "]"]],
    ["a bracket lost behind #", "a: [ Crack at #3, x ]\nb: 1\n", ["source/lost-text", "#3, x ]"]],
    ["a reserved character", "a: @x\n", ["source/quotes", "@"]],
    ["an unknown escape", 'a: "\\q"\n', ["source/escape", "\\q"]],
    ["a line that is no key", "a: 1\nhello\nb: 2\n", ["source/not-a-key", "hello"]],
    ["no blank after a colon", "a:1\nb: 2\n", ["source/blank-after-colon", "a:1"]],
    ["no blank after a colon in brackets", "a: { x:1 }\n", ["source/no-colon", "x:1"]],
    ["no colon in brackets", "a: { valve 1.7 }\n", ["source/no-colon", "valve 1.7"]],
    ["no colon behind a number", "a: { valve: 1.7, stem 0.3 }\n", ["source/no-colon", "stem 0.3"]],
    ["no colon behind a text", "a: { name: X, stem 0.3 }\n", ["source/no-colon", "stem 0.3"]],
    ["a deeper line", "a: 1\n  b: 2\n", ["source/indent", "1"]],
    ["a line between two columns", "a:\n    b: 1\n  c: 2\n", ["source/indent", "c: 2"]],
    ["text behind a quoted value", 'a: "x" y\nb: 1\n', ["source/quotes", "y"]],
    ["a missing comma", "a: { x: 1 y: 2 }\n", ["source/comma", "1 y: 2 }"]],
    ["a comma too much", "a: [1,,2]\n", ["source/comma", ","]],
    ["text behind |", "flow: | lift\n  x\n", ["source/block-text", "lift"]],
    ["a list on its key's line", "a: - x\n", ["source/list", "- x"]],
    ["a question mark alone", "a: ?\n", ["source/quotes", "?"]],
    ["a control character", "a: x\u0001y\n", ["source/control-character", "\u0001"]],
    ["another encoding", "a: 45\ufffd\n", ["source/not-utf8", "\ufffd"]],
  ])("%s", (_, text, fault) => expect(faults(text)).toEqual([fault]));

  test("never in the parser's own words", () => {
    for (const text of ["a: [1\n", "a: 'x\n", "a: @\n", "? x\n: : y\n", "a: |9x\n b\n", "- \tx: y\n\t- z\n"]) {
      expect(rendered(text)).not.toMatch(/implicit|scalar|flow (map|seq)|block|token|collection|mapping|node/i);
    }
  });

  test("many at once, in file order", () =>
    expect(faults("a: @x\nb: 1\nc: `y`\nd: &z 1\n").map(([code]) => code)).toEqual([
      "source/quotes",
      "source/quotes",
      "source/anchor",
    ]));

  test("a fault that leaves the structure whole leaves the document readable", () => {
    const { document: read } = parseYaml(FILE, "a: 1\na: 2\nb: 3\n");
    expect(read?.value).toEqual({ a: "1", b: "3" });
    expect(parseYaml(FILE, "a: [1\n").document).toBeUndefined();
  });

  test("the whole of some messages", () => {
    expect(rendered("name: X\nvalve: 1\nname: Y\n")).toMatchInlineSnapshot(`
      "error[source/duplicate-key]: \`name\` stands here and in line 1
       --> job.yaml:3:1
      3 | name: Y
        | ^^^^
        = hint: keep one of the two"
    `);
    expect(rendered("- name: X\n  remarks: Bay 2: north\n")).toMatchInlineSnapshot(`
      "error[source/two-colons]: a second \`key: value\` begins on the same line: a text with a colon wants quotes
       --> job.yaml:2:12
      2 |   remarks: Bay 2: north
        |            ^^^^^^^^^^^^
        = hint: write "Bay 2: north""
    `);
    expect(rendered("shop:\n  email: @harbour\n")).toMatchInlineSnapshot(`
      "error[source/quotes]: a text cannot begin with \`@\` unless it is in quotes
       --> job.yaml:2:10
      2 |   email: @harbour
        |          ^
        = hint: put it in quotes: "@harbour""
    `);
    expect(rendered("a: *x\n")).toMatchInlineSnapshot(`
      "error[source/alias]: \`*x\` is read as a reference to another value, which job files do not use
       --> job.yaml:1:4
      1 | a: *x
        |    ^^
        = hint: write the value out; if it is text, put it in quotes"
    `);
  });
});

describe("a # that was meant as text", () => {
  test.each<[string, string, [string, string][]]>([
    ["in a text", "c: cracked at #3 cylinder\n", [["warning source/lost-text", "#3 cylinder"]]],
    ["as a colour", "accent: #1F4E5F\n", [["warning source/lost-value", "#1F4E5F"]]],
    ["as a list item", "a:\n  - #3 cylinder\n", [["warning source/lost-value", "#3 cylinder"]]],
    ["a comment with a blank after it", "a: 1 # smudged\n", []],
    ["a comment well to the right", "a: 1    #smudged\n", []],
    ["in quotes", 'a: "at #3"\n', []],
    ["in a literal block", "flow: |\n  lift intake\n  0.1 - #smudged\n", []],
    ["a line of its own", "#a\na: 1\n  #b\n", []],
  ])("%s", (_, text, expected) => expect(faults(text)).toEqual(expected));

  test("the whole of the message", () =>
    expect(rendered("shop:\n  accent: #1F4E5F\n")).toMatchInlineSnapshot(`
    "warning[source/lost-value]: everything after \`#\` is a comment, so the value is lost
     --> job.yaml:2:11
    2 |   accent: #1F4E5F
      |           ^^^^^^^
      = hint: put it in quotes: "#1F4E5F""
  `));
});

describe("a readings table in the wrong place", () => {
  const job = (key: string, ...lines: string[]) =>
    `stages:\n  - name: A\n    ${key}\n${lines.join("\n")}\n  - name: B\n    x: 1\n`;
  test.each<[string, string, [string, string][]]>([
    ["at column 0", job("flow: |", "lift intake", "0.1 40", "0.2 50"), [["source/table-indent", "lift intake"]]],
    ["with a deeper head", job("flow: |", "         lift intake", "      0.1 40"), [["source/table-indent", "0.1 40"]]],
    ["indented with tabs", job("flow: |", "\tlift\tintake", "\t0.1\t40"), [["source/table-indent", "lift\tintake"]]],
    [
      "with a comment to its left",
      job("flow: |", "      lift intake", "# smudged", "      0.1 40"),
      [["source/table-indent", "# smudged"]],
    ],
    [
      "with a comment a little to its left",
      job("flow: |", "      lift intake", "      0.1 40", "     # x", "      0.2 -"),
      [["source/table-indent", "# x"]],
    ],
    [
      "without its |",
      job("flow:", "      lift intake", "      0.1 40 # x", "      0.2 -"),
      [["source/table-mark", "lift intake"]],
    ],
  ])("%s", (_, text, expected) => expect(faults(text)).toEqual(expected));

  test("other errors of the file are reported as well", () =>
    expect(faults(`${job("flow: |", "lift intake", "0.1 40")}    y: @z\n`)).toEqual([
      ["source/table-indent", "lift intake"],
      ["source/quotes", "@"],
    ]));

  test("the whole of the message", () =>
    expect(rendered(job("flow: |", "lift intake", "0.1 40"))).toMatchInlineSnapshot(`
    "error[source/table-indent]: the readings table is not indented under \`flow:\`
     --> job.yaml:4:1
    4 | lift intake
      | ^^^^^^^^^^^
      = hint: indent the table under flow:"
  `));
});

describe("limits", () => {
  const keys = (count: number) => Array.from({ length: count }, (_, at) => `k${at}: 1`).join("\n");
  test.each(HOSTILE_TEXTS)("%s", (_, text, code) => expect(parseYaml(FILE, text).diagnostics[0]?.code).toBe(code));
  test("nine thousand keys are read", () => expect(Object.keys(document(keys(9000)).value)).toHaveLength(9000));
  test("at most fifty of thousands of errors are reported", () => {
    expect(parseYaml(FILE, 'a: "x\n'.repeat(3001)).diagnostics.length).toBeLessThanOrEqual(51);
    expect(parseYaml(FILE, Array.from({ length: 3000 }, (_, at) => `k${at}: @`).join("\n")).diagnostics).toHaveLength(
      50,
    );
  });
});

const yamlish = fc.string({
  unit: fc.constantFrom(..."abf: \n\t-#|>[]{},\"'&*!%?@`0.1\r", "flow: |\n", "lift intake\n", "\n  ", "\n    "),
});

test("law: no text throws, and every fault stands inside it", () =>
  fc.assert(
    fc.property(yamlish, (text) => {
      const { document: read, diagnostics } = parseYaml(FILE, text);
      for (const { at } of diagnostics) expect(at && at.start >= 0 && at.start <= at.end).toBe(true);
      if (read === undefined) expect(diagnostics.some(({ severity }) => severity === "error")).toBe(true);
      render(diagnostics, new Map([[FILE, text]]));
    }),
    { seed: 1, numRuns: 1500 },
  ));

const line = fc.string({ unit: fc.constantFrom(..."ab01. -#:") }).map((text) => text.trimEnd());

test("law: characters of a literal block are found where they stand", () =>
  fc.assert(
    fc.property(
      fc.array(line, { minLength: 1 }),
      fc.constantFrom("\n", "\r\n"),
      fc.integer({ min: 1, max: 8 }),
      (lines, end, indent) => {
        const body = ["x", ...lines].map((one) => (one === "" ? "" : " ".repeat(indent) + one));
        const text = `a: |${end}${body.join(end)}${end}`;
        const read = document(text);
        const value = (read.value as { a: string }).a;
        [...value].forEach((character, offset) => {
          const span = read.textSpan(["a"], offset, offset + 1);
          if (character !== "\n") expect(text.slice(span.start, span.end)).toBe(character);
        });
      },
    ),
    { seed: 1 },
  ));
