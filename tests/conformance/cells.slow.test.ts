import { expect, test } from "vitest";
import { demoJobs, ROOT } from "../whole/demo.ts";
import { readCellsBack } from "./cells.ts";

const name = (path: string) => path.slice(`${ROOT}jobs/`.length);

/** Read back from the structure tree: every cell as the content has it, every flow, change and ± as the figures have it. */
test.each(demoJobs.map((path) => [name(path), path] as const))("%s: each cell under its heads", async (_, path) => {
  const counts = await readCellsBack(path);
  // A handover of one stage and one side has a dozen readings; one of two of each has a hundred and more.
  if (counts.has("handover")) expect(counts.get("handover")).toBeGreaterThan(12);
});
