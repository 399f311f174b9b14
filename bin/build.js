// Builds the program into dist/: TypeScript's output and the compiled chart shapes. Everything is made beside it and
// moved into place at the end, so that a build which fails, or runs twice at once, leaves a whole dist/ behind.
import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const dist = join(root, "dist");
const made = join(root, `dist.tmp-${process.pid}`);
const old = join(root, `dist.old-${process.pid}`);

try {
  compileSources();
  await compileCharts();
  putInPlace();
} catch (error) {
  process.stderr.write(`build: ${error instanceof Error ? error.message : error}\n`);
  process.exitCode = 1;
} finally {
  for (const path of [made, old]) rmSync(path, { recursive: true, force: true });
}

function compileSources() {
  const tsc = createRequire(import.meta.url).resolve("typescript/bin/tsc");
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [tsc, "-p", join(root, "src", "tsconfig.json"), "--outDir", made, "--noEmitOnError"],
    { encoding: "utf8" },
  );
  if (status !== 0) throw new Error(`TypeScript refused the sources\n${stdout}${stderr}`.trimEnd());
}

async function compileCharts() {
  const { compileShapes } = await import(pathToFileURL(join(made, "charts", "compile-shapes.js")).href);
  mkdirSync(join(made, "charts"), { recursive: true });
  writeFileSync(join(made, "charts", "shapes.json"), JSON.stringify(compileShapes()));
}

/** A directory cannot be replaced in one step where one is in the way: move it aside, and give way to a build that was first. */
function putInPlace() {
  for (let attempt = 0; ; attempt++) {
    if (existsSync(dist)) {
      try {
        renameSync(dist, old);
      } catch (error) {
        if (error.code !== "ENOENT") throw error;
      }
    }
    try {
      renameSync(made, dist);
      return;
    } catch (error) {
      if (attempt >= 20 || !["ENOTEMPTY", "EEXIST", "EPERM"].includes(error.code)) throw error;
      rmSync(old, { recursive: true, force: true });
    }
  }
}
