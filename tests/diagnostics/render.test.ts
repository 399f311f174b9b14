import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { sortDiagnostics } from "../../src/diagnostics/build.ts";
import type { Diagnostic } from "../../src/diagnostics/diagnostic.ts";
import { render } from "../../src/diagnostics/render.ts";

const file = "jobs/harbour-garage.yaml";
const about = (text: string, words: string, rest: Partial<Diagnostic> = {}): string => {
  const start = text.indexOf(words);
  const at = { file, start, end: start + words.length };
  const fault: Diagnostic = {
    severity: "error",
    code: "units/missing-unit",
    message: "a length needs a unit",
    at,
    ...rest,
  };
  return render([fault], new Map([[file, text]]));
};

test("the whole of a message", () => {
  const text = 'job: "1"\nvalve:\n  diameter: 34\n';
  expect(about(text, "34", { hint: "write 34 mm or 34 in", note: "no units are declared" })).toMatchInlineSnapshot(`
    "error[units/missing-unit]: a length needs a unit
     --> jobs/harbour-garage.yaml:3:13
    3 |   diameter: 34
      |             ^^
      = note: no units are declared
      = hint: write 34 mm or 34 in"
  `);
});

test("line numbers of two digits push the margin", () => {
  expect(about(`${"\n".repeat(11)}a: b\n`, "b", { hint: "first\nsecond" })).toMatchInlineSnapshot(`
    "error[units/missing-unit]: a length needs a unit
      --> jobs/harbour-garage.yaml:12:4
    12 | a: b
       |    ^
       = hint: first
               second"
  `);
});

const caretLine = (rendered: string) => rendered.split("\n").slice(2, 4);

describe("the caret stands under the fault", () => {
  test("behind tabs", () =>
    expect(caretLine(about("\tx:\tfault", "fault"))).toEqual(["1 |     x:    fault", "  |           ^^^^^"]));
  test("behind wide and combining characters", () =>
    expect(caretLine(about("頭e\u0301: fault", "fault"))).toEqual(["1 | 頭e\u0301: fault", "  |      ^^^^^"]));
  test("with Windows line ends and a byte order mark", () => {
    const shown = about("\ufeffa: fault\r\nb: 1\r\n", "fault");
    expect(shown).toContain(":1:4\n");
    expect(caretLine(shown)).toEqual(["1 | a: fault", "  |    ^^^^^"]);
  });
  test("at the first line of a fault of several lines", () =>
    expect(caretLine(about("a: one\n  two", "one\n  two"))).toEqual(["1 | a: one", "  |    ^^^"]));
  test("for a place without width, and at the end of the text", () => {
    expect(caretLine(about("abc", ""))).toEqual(["1 | abc", "  | ^"]);
    const at = { file, start: 99, end: 120 };
    expect(caretLine(render([{ severity: "error", code: "a/b", message: "m", at }], new Map([[file, "abc"]])))).toEqual(
      ["1 | abc", "  |    ^"],
    );
  });
  test("in a line of thousands of characters, trimmed about it", () => {
    const [line = "", carets = ""] = caretLine(about(`${"x".repeat(5000)}fault${"y".repeat(5000)}`, "fault"));
    expect(line.length).toBeLessThan(112);
    expect(line).toMatch(/^1 \| …x+faulty+…$/);
    expect(line.slice(carets.indexOf("^"), carets.lastIndexOf("^") + 1)).toBe("fault");
  });
});

test("nothing in a file or a name can steer the terminal", () => {
  const text = "a: \u001b[31mred\u001b]0;title\u0007 \u202eb\u200bc fault";
  const shown = about(text, "fault", { message: "`\u001b[2J` x\u0007\ny" });
  expect(shown).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u200b-\u200f\u202a-\u202e]/);
  expect(caretLine(shown)).toEqual(["1 | a: red bc fault", "  |           ^^^^^"]);
});

test("a fault without a place, and one in a file whose text is not at hand", () => {
  const plain: Diagnostic = { severity: "warning", code: "a/b", message: "odd", hint: "look" };
  expect(render([plain], new Map())).toBe("warning[a/b]: odd\n  = hint: look");
  expect(render([{ ...plain, at: { file: "gone.yaml", start: 3, end: 4 } }], new Map())).toBe(
    "warning[a/b]: odd\n --> gone.yaml\n  = hint: look",
  );
});

test("colour only where asked for", () => {
  const fault: Diagnostic = { severity: "error", code: "a/b", message: "m" };
  expect(render([fault], new Map(), { colour: true })).toContain("\u001b[1;31merror[a/b]\u001b[0m");
  expect(render([fault], new Map())).toBe("error[a/b]: m");
});

test("law: any text and any place renders, without control characters", () =>
  fc.assert(
    fc.property(fc.string({ unit: "binary" }), fc.nat(50), fc.nat(50), (text, start, length) => {
      const at = { file, start, end: start + length };
      const shown = render([{ severity: "error", code: "a/b", message: text, at }], new Map([[file, text]]));
      expect(shown).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/);
      expect(shown).toMatch(/\^/);
    }),
    { seed: 1 },
  ));

test("sorted file by file, from top to bottom, one slip once", () => {
  const one = (name: string | undefined, start: number): Diagnostic => ({
    severity: "error",
    code: "a/b",
    message: "m",
    ...(name && { at: { file: name, start, end: start + 1 } }),
  });
  const sorted = sortDiagnostics([one("b", 9), one("a", 5), one("b", 1), one("b", 9), one(undefined, 0)]);
  expect(sorted.map(({ at }) => at && [at.file, at.start])).toEqual([undefined, ["b", 1], ["b", 9], ["a", 5]]);
});
