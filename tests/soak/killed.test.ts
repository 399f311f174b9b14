import { join } from "node:path";
import { expect, test } from "vitest";
import { scratch } from "../cli/run.ts";
import { killMany } from "../slow/killed.ts";

const folder = scratch();

test("500 kills at random moments harm no sheet and no job, and the next run leaves no trace of them", async () => {
  const { killed } = await killMany(join(folder, "desk"), 500);
  expect(killed).toBe(500);
});
