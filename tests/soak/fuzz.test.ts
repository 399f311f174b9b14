import { appendFileSync, existsSync, readFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { tryMany } from "../fuzz/many.ts";
import { processorTime } from "../slow/processor-time.ts";

/** FUZZ_FROM=… begins elsewhere; a run that was stopped goes on where its log ends. */
const FROM = Number(process.env.FUZZ_FROM ?? 1_000_000);
const CASES = Number(process.env.FUZZ_CASES ?? 100_000);
const STEP = 100;
const log = join(tmpdir(), `headsheet-fuzz-${FROM}.log`);

test("a hundred thousand worlds are made or refused, and nothing else", async () => {
  const before = existsSync(log) ? readFileSync(log, "utf8").trim().split("\n") : [];
  const done = before.map((line) => JSON.parse(line) as { to: number; made: number; faults: string[] });
  let made = done.reduce((sum, one) => sum + one.made, 0);
  const faults = done.flatMap((one) => one.faults);
  for (let from = done.at(-1)?.to ?? FROM; from < FROM + CASES; from += STEP) {
    const to = Math.min(from + STEP, FROM + CASES);
    const tried = await tryMany(from, to, { readEach: 1, rulesEach: 10, clock: processorTime });
    made += tried.made;
    faults.push(...tried.faults);
    appendFileSync(log, `${JSON.stringify({ to, made: tried.made, faults: tried.faults })}\n`);
  }
  process.stdout.write(`${CASES} worlds from ${FROM}: ${made} made, ${faults.length} faults; see ${log}\n`);
  expect(faults).toEqual([]);
}, 86_400_000);
