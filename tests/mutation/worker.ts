import { setPriority } from "node:os";
import { type Attempt, openBench } from "./try-mutants.ts";
import { readWorld } from "./world.ts";

/** What the main process asks of a worker: what a file of tests touches, or whether a mutant is found. */
export type Order = { readonly cover: string } | { readonly attempt: Attempt };

setPriority(19);
process.env.TZ = "UTC";
process.env.NO_COLOR = "1";
// What a mutant left behind in a promise that nobody waits for is not this process's end.
process.on("unhandledRejection", () => undefined);
const { mutants, sources, tests } = readWorld(process.cwd());
const bench = await openBench(tests, sources, mutants.length);
process.on("message", async (order: Order) => {
  const answer = "cover" in order ? await bench.cover(order.cover) : await bench.attempt(order.attempt);
  process.send!({ answer, full: process.memoryUsage().rss > 1.2e9 });
});
process.send!({ ready: true });
