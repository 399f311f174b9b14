import { join } from "node:path";
import { expect, test } from "vitest";
import { scratch } from "../cli/run.ts";
import { killMany } from "../slow/killed.ts";

const folder = scratch();

test("500 kills at random moments harm no sheet, no job and no register, and the next run leaves no trace of them", async () => {
  const { killed, lines, litter } = await killMany(join(folder, "desk"), 500);
  process.stdout.write(`${killed} killed, ${lines} lines in the register, ${litter} temporary files on the way\n`);
  expect(killed).toBe(500);
});
