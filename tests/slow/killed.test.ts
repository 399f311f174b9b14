import { join } from "node:path";
import { expect, test } from "vitest";
import { scratch } from "../cli/run.ts";
import { killMany } from "./killed.ts";

const folder = scratch();

test("25 kills at random moments harm no sheet, no job and no register, and the next run leaves no trace of them", async () => {
  const { killed } = await killMany(join(folder, "desk"), 25);
  expect(killed).toBe(25);
}, 1_800_000);
