// Another program that saves a file, on a thread of its own: at a given time, into the same file or by a new one renamed over it.
const { renameSync, writeFileSync } = require("node:fs");
const { parentPort } = require("node:worker_threads");

parentPort.on("message", ({ path, text, kind, at }) => {
  if (kind === "by rename") writeFileSync(`${path}~`, text);
  while (performance.timeOrigin + performance.now() < at);
  if (kind === "by rename") renameSync(`${path}~`, path);
  else writeFileSync(path, text);
  parentPort.postMessage("saved");
});
