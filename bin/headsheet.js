#!/usr/bin/env node
// Starts the program; builds it first if needed.
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { load } from "./load.js";

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const program = join(root, "dist", "cli.cjs");

if (existsSync(program) || build()) {
  await load(dirname(program), "cli.cjs").main();
} else process.exitCode = 2;

function build() {
  try {
    const require = createRequire(import.meta.url);
    for (const name of ["esbuild", "vega-lite"]) require.resolve(name);
  } catch {
    process.stderr.write(
      "headsheet is not built, and the packages that build it are not installed: run npm ci, then npm start\n",
    );
    return false;
  }
  process.stderr.write("headsheet is not built yet: building it once\n");
  const { status } = spawnSync(process.execPath, [join(root, "bin", "build.js")], { stdio: ["ignore", 2, 2] });
  if (status === 0 && existsSync(program)) return true;
  process.stderr.write("headsheet could not be built: see above\n");
  return false;
}
