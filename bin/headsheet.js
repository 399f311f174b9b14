#!/usr/bin/env node
// Starts the built program; builds it first where that was not done yet.
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const program = join(root, "dist", "cli.js");

if (existsSync(program) || build()) {
  const { main } = await import(pathToFileURL(program).href);
  await main();
} else process.exitCode = 2;

function build() {
  try {
    const require = createRequire(import.meta.url);
    for (const name of ["typescript", "vega-lite"]) require.resolve(name);
  } catch {
    process.stderr.write(
      "headsheet is not built, and TypeScript, which builds it, is not installed: run npm install, then npm run build\n",
    );
    return false;
  }
  process.stderr.write("headsheet is not built yet: building it once\n");
  const { status } = spawnSync(process.execPath, [join(root, "bin", "build.js")], { stdio: ["ignore", 2, 2] });
  if (status === 0 && existsSync(program)) return true;
  process.stderr.write("headsheet could not be built: see above\n");
  return false;
}
