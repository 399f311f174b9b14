import { expect, test } from "vitest";
import { scratch } from "../cli/run.ts";
import { tryCommands } from "../fuzz/commands.ts";
import { processorTime } from "../slow/processor-time.ts";

/** FUZZ_FROM=… and FUZZ_CASES=… run a part of them. */
const FROM = Number(process.env.FUZZ_FROM ?? 0);
const CASES = Number(process.env.FUZZ_CASES ?? 20_000);

const folder = scratch();

test("twenty thousand commands on harmed jobs: done or refused with a place, no stack trace, none over five seconds", async () => {
  const { tried, done, slowest, faults } = await tryCommands(folder, FROM, FROM + CASES, processorTime);
  process.stdout.write(`${tried} commands: ${done} done, the slowest took ${Math.round(slowest)} ms\n`);
  expect(faults).toEqual([]);
});
