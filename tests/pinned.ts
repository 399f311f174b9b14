import { readFileSync, writeFileSync } from "node:fs";
import { expect } from "vitest";

/**
 * Holds lines against those that are kept in a file of the repository. They are ours, not anybody's truth: a change says
 * that something came out otherwise, and whoever makes it looks at the difference and accepts it with `UPDATE_PINS=1`.
 */
export function expectPinned(file: URL, lines: readonly string[]): void {
  if (process.env.UPDATE_PINS) writeFileSync(file, `${lines.join("\n")}\n`);
  expect(lines).toEqual(readFileSync(file, "utf8").trimEnd().split("\n"));
}
