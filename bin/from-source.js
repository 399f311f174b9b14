// Bundles single source files for the scripts beside this file.
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";

const root = dirname(dirname(fileURLToPath(import.meta.url)));

/** The exports of these files under src/, merged. */
export async function fromSource(...files) {
  const { outputFiles } = await build({
    stdin: {
      contents: files.map((file) => `export * from "./${file}.ts";`).join("\n"),
      resolveDir: join(root, "src"),
      loader: "ts",
    },
    bundle: true,
    write: false,
    platform: "node",
    format: "esm",
    packages: "external",
    logLevel: "error",
  });
  // In the project, so that its packages resolve.
  const folder = mkdtempSync(join(root, "dist.tmp-"));
  try {
    const path = join(folder, "parts.mjs");
    writeFileSync(path, outputFiles[0].text);
    return await import(pathToFileURL(path).href);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
