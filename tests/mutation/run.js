// Tries the mutants: `npm run mutants`, `-- layout` for one folder, `-- --sample 300` for a seeded choice of each.
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";

const root = fileURLToPath(new URL("../..", import.meta.url));
const folder = join(root, "out", "mutation");
await build({
  absWorkingDir: root,
  entryPoints: ["mutation", "worker"].map((name) => `tests/mutation/${name}.ts`),
  outdir: folder,
  outExtension: { ".js": ".mjs" },
  bundle: true,
  packages: "external",
  platform: "node",
  format: "esm",
  logLevel: "error",
});
process.chdir(root);
const { mutation } = await import(pathToFileURL(join(folder, "mutation.mjs")).href);
process.exitCode = await mutation(root, process.argv.slice(2));
