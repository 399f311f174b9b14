// Runs the bench: `node tests/bench/run.js [--jobs 10000] [--quick]`. Numbers go to the terminal and to out/bench/bench.json.
import { mkdirSync, rmSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";

const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
const folder = join(root, "out", "bench");
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
await build({
  absWorkingDir: root,
  entryPoints: ["bench", "cold-floor", "cold-pdfmake", "cold-react", "warm-one"].map(
    (name) => `tests/bench/${name}.ts`,
  ),
  outdir: folder,
  outExtension: { ".js": ".mjs" },
  bundle: true,
  splitting: true,
  packages: "external",
  platform: "node",
  format: "esm",
  logLevel: "error",
});
process.chdir(root);
const { bench } = await import(pathToFileURL(join(folder, "bench.mjs")).href);
await bench(root, process.argv.slice(2));
