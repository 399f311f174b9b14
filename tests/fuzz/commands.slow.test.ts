import { expect, test } from "vitest";
import { scratch } from "../cli/run.ts";
import { processorTime } from "../slow/processor-time.ts";
import { tryCommands } from "./commands.ts";

const folder = scratch();

test("two thousand commands on harmed jobs: done or refused with a place, no stack trace, none over five seconds", async () => {
  const { tried, done, slowest, faults } = await tryCommands(folder, 0, 2_000, processorTime);
  process.stdout.write(`${tried} commands: ${done} done, the slowest took ${Math.round(slowest)} ms\n`);
  expect(faults).toEqual([]);
  // Were most refused, little but the refusals would be tested.
  expect(done).toBeGreaterThan(500);
}, 600_000);
