// What a thread of the built program runs: one of its scripts, with what it is handed.
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parentPort, workerData } from "node:worker_threads";
import { load } from "./load.js";

const dist = join(dirname(dirname(fileURLToPath(import.meta.url))), "dist");
const { run } = load(dist, workerData);
parentPort.once("message", (data) => {
  for (const part of run(data)) parentPort.postMessage(part);
  // Known to src/io/threads.ts.
  parentPort.postMessage("all done");
});
