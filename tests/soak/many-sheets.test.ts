import { expect, test } from "vitest";
import { demoJobs, makeWhole } from "../whole/demo.ts";

test("a thousand sheets in one process leave memory flat", async () => {
  let early = 0;
  for (let i = 0; i < 1000; i++) {
    await makeWhole(demoJobs[i % demoJobs.length]!);
    if (i === 300) early = process.memoryUsage().heapUsed;
  }
  globalThis.gc?.();
  expect(process.memoryUsage().heapUsed).toBeLessThan(early + 100e6);
});
