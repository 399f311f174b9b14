import { join } from "node:path";
import { expect, test } from "vitest";
import { scratch } from "../cli/run.ts";
import { killMany } from "./killed.ts";

const folder = scratch();

test("60 kills at random moments harm no sheet and no job, and the next run leaves no trace of them", async () => {
  const { killed } = await killMany(join(folder, "desk"), 60);
  expect(killed).toBe(60);
}, 1_800_000);
