import { expect, test } from "vitest";
import { scratch } from "../cli/run.ts";
import { raceSaves } from "../slow/save-races.ts";

const folder = scratch();

test("of 300 saves of another program in the same milliseconds, all in place are kept, and at least 299 by rename", async () => {
  const inPlace = await raceSaves(folder, "in place", 300);
  const byRename = await raceSaves(folder, "by rename", 300);
  process.stderr.write(`\nraces: in place ${JSON.stringify(inPlace)}, by rename ${JSON.stringify(byRename)}\n`);
  expect(inPlace).toMatchObject({ kept: 300, untold: 0 });
  expect(byRename).toMatchObject({ untold: 0 });
  expect(byRename.kept).toBeGreaterThanOrEqual(299);
}, 600_000);
