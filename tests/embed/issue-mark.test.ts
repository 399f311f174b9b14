import { expect, test } from "vitest";
import { issueMark } from "../../src/embed/issue-mark.ts";
import { loadProject } from "../../src/project/load-project.ts";
import { LONG_FILES, LONG_JOB } from "../contract/long-job.ts";
import { expectPinned } from "../pinned.ts";
import { jpeg, png } from "../project/pictures.ts";
import { demoJobs, kit, ROOT } from "../whole/demo.ts";
import { edited, markOf } from "./mark-of.ts";

test("what says the same has the same mark: order of keys, comments, another unit, another form, a repeated size", () => {
  const same: readonly [string, string][] = [
    ["name: A. Miller, email: a@example.org", "email: a@example.org, name: A. Miller"],
    ["stroke: 2.953", "stroke: 75.0062 mm   # as stated"],
    ["stroke: 2.953", "stroke: 2.9530"],
  ];
  for (const [from, to] of same) expect([to, markOf(edited(LONG_JOB, from, to))]).toEqual([to, markOf(LONG_JOB)]);
});

test("the bytes of a photograph and of the logo are in the mark", () => {
  const photo = jpeg({ width: 640, height: 481 });
  expect(markOf(LONG_JOB, { ...LONG_FILES, "/shop/photos/2026-014-chamber.jpg": photo })).not.toBe(markOf(LONG_JOB));
  expect(markOf(LONG_JOB, { ...LONG_FILES, "/shop/logo.png": png({ width: 5, height: 2 }) })).not.toBe(
    markOf(LONG_JOB),
  );
});

test("readings of a compared head are in the mark, and what it is not drawn with is not", () => {
  const other = LONG_FILES["/shop/2025-101.yaml"] as string;
  const mark = (text: string) => markOf(LONG_JOB, { ...LONG_FILES, "/shop/2025-101.yaml": text });
  expect(mark(other.replaceAll("44.0", "44.1"))).not.toBe(mark(other));
  expect(mark(`${other}\nremarks: another\ninternal: note\n`)).toBe(mark(other));
});

test("a size that is held back reveals itself in no mark", () => {
  const held = edited(LONG_JOB, "hold_back: []", "hold_back: [pinch, sections, seat cuts, port volume]");
  const sizes: readonly [RegExp, string][] = [
    [/port_volume: [\d.]+/, "port_volume: 117.5"],
    [/pinch: \{ width: [\d.]+/, "pinch: { width: 0.93"],
    [/seat: \{ angle: 45 deg, width: [\d.]+/, "seat: { angle: 45 deg, width: 0.052"],
  ];
  for (const [from, to] of sizes) {
    expect(held).toMatch(from);
    expect([to, markOf(held.replace(from, to))]).toEqual([to, markOf(held)]);
    expect(markOf(LONG_JOB.replace(from, to))).not.toBe(markOf(LONG_JOB));
  }
});

// A mark that changes although nothing was typed locks every issued sheet of every shop.
test("the marks of the demo jobs are as accepted", () => {
  const lines = demoJobs.map((path) => {
    const { project } = loadProject(path, kit.io);
    return `${issueMark(project!)}  ${path.slice(`${ROOT}jobs/`.length)}`;
  });
  expectPinned(new URL("./issue-marks.txt", import.meta.url), lines);
});
