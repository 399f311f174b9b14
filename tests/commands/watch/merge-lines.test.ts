import { EditorState } from "@codemirror/state";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { lineChanges } from "../../../src/commands/watch/page/editor-positions.ts";
import { mergeLines } from "../../../src/commands/watch/page/merge-lines.ts";

const BASE = "1\n2\n3\n4\n5\n";

describe("two texts of one base", () => {
  test.each<[string, string, string, string | undefined]>([
    ["other lines", "1\nmine\n3\n4\n5\n", "1\n2\n3\n4\ntheirs\n", "1\nmine\n3\n4\ntheirs\n"],
    ["neighbouring lines", "1\nmine\n3\n4\n5\n", "1\n2\ntheirs\n4\n5\n", "1\nmine\ntheirs\n4\n5\n"],
    ["a row more, and another changed", "1\n2\n3\n4\n5\n6\n", "0\n2\n3\n4\n5\n", "0\n2\n3\n4\n5\n6\n"],
    ["the same line", "1\nmine\n3\n4\n5\n", "1\ntheirs\n3\n4\n5\n", undefined],
    ["a line changed and taken away", "1\nmine\n3\n4\n5\n", "1\n3\n4\n5\n", undefined],
    ["a row more from both", "1\n2\n3\n4\n5\n6\n", "1\n2\n3\n4\n5\n7\n", undefined],
    ["the same change in both", "1\nx\n3\n4\n5\n", "1\nx\n3\n4\n6\n", "1\nx\n3\n4\n6\n"],
    ["nothing here", BASE, "1\n2\n", "1\n2\n"],
    ["line ends of Windows", "1\r\nm\r\n3\r\n4\r\n5\r\n", "1\r\n2\r\n3\r\n4\r\nt\r\n", "1\r\nm\r\n3\r\n4\r\nt\r\n"],
  ])("%s", (_, mine, theirs, merged) => {
    const base = mine.includes("\r") ? BASE.replaceAll("\n", "\r\n") : BASE;
    expect(mergeLines(base, mine, theirs)).toBe(merged);
    expect(mergeLines(base, theirs, mine)).toBe(merged);
  });

  const text = fc.array(fc.constantFrom("a", "b", "c", ""), { maxLength: 8 }).map((lines) => lines.join("\n"));
  test("what one left as it was is what the other made of it", () =>
    fc.assert(
      fc.property(text, text, (base, changed) => {
        expect(mergeLines(base, changed, base)).toBe(changed);
        expect(mergeLines(base, base, changed)).toBe(changed);
        expect(mergeLines(base, changed, changed)).toBe(changed);
      }),
    ));
  test("the changes of a document by lines give the other", () =>
    fc.assert(
      fc.property(text, text, (before, after) => {
        const state = EditorState.create({ doc: before });
        const changes = lineChanges(state.doc, state.toText(after));
        expect(state.update({ changes }).state.sliceDoc()).toBe(after);
      }),
    ));
});
