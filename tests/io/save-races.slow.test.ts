import { expect, test } from "vitest";
import { scratch } from "../cli/run.ts";
import { raceSaves } from "../slow/save-races.ts";

const folder = scratch();

test("of 100 saves of another program in the same milliseconds, all in place are kept, and all but one by rename at most", async () => {
  const inPlace = await raceSaves(folder, "in place", 100);
  expect(inPlace).toMatchObject({ kept: 100, untold: 0 });
  const byRename = await raceSaves(folder, "by rename", 100);
  expect(byRename.kept).toBeGreaterThanOrEqual(99);
  expect(byRename.untold).toBe(0);
  // They did meet: some of ours gave way.
  for (const { refused } of [inPlace, byRename]) expect(refused).toBeGreaterThan(10);
});
