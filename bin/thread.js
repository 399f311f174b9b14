// What a thread of the built program runs: one of its scripts, with what was handed over.
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { parentPort, workerData } from "node:worker_threads";
import { load } from "./load.js";

const dist = join(dirname(dirname(fileURLToPath(import.meta.url))), "dist");
parentPort.postMessage(load(dist, workerData.script).run(workerData.data));
