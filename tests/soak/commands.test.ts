import { expect, test } from "vitest";
import { scratch } from "../cli/run.ts";
import { tryCommands } from "../fuzz/commands.ts";
import { processorTime } from "../slow/processor-time.ts";

const folder = scratch();

test("twenty thousand commands on harmed jobs: done or refused with a place, no stack trace, none over five seconds", async () => {
  const { tried, done, slowest, faults } = await tryCommands(folder, 0, 20_000, processorTime);
  process.stdout.write(`${tried} commands: ${done} done, the slowest took ${Math.round(slowest)} ms\n`);
  expect(faults).toEqual([]);
});
