// Builds the program into dist/: sources and packages bundled into a few files, and the compiled chart shapes. Works in a
// temporary folder that replaces dist/ at the end, so that a failed or concurrent build leaves a complete dist/. Types are checked
// by `npm run typecheck`, not here.
import { createHash } from "node:crypto";
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build, transform } from "esbuild";
import { licenceTexts, packagesOf } from "./licences.js";

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const dist = join(root, "dist");
const made = join(root, `dist.tmp-${process.pid}`);
const old = join(root, `dist.old-${process.pid}`);

/** Packages that few runs need and that come as they are: installed beside the program. */
const OUTSIDE = ["@hyzyla/pdfium", "nodemailer"];
const FONTS = ["ibm-plex-sans", "source-sans-3", "open-sans"].map((name) => `node_modules/@expo-google-fonts/${name}`);

/** Replaces slow-loading parts that are never called: pdfkit's fonts, line breaking and encryption, fontkit's web fonts. */
const omitUnused = {
  name: "without-unasked",
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^(fontkit|linebreak|@noble\/ciphers\/aes|brotli\/decompress\.js)$/ }, ({ path, importer }) =>
      /[\\/](pdfkit|fontkit)[\\/]/.test(importer) ? { path, namespace: "unasked" } : undefined,
    );
    onLoad({ filter: /./, namespace: "unasked" }, ({ path }) => ({
      contents: `const unasked = () => { throw new Error("${path} was left out of the build") };
export { unasked as create, unasked as cbc, unasked as ecb, unasked as default };`,
    }));
  },
};

/** Bundles only the parts of Vega that the chart shapes use: no maps, forces, hierarchies, regressions, word clouds or parser. */
const slimVega = {
  name: "slim-vega",
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]vega[\\/]build[\\/]vega\.module\.js$/ }, () => ({
      contents: `import { extend } from "vega-util";
import { transforms } from "vega-dataflow";
import * as rows from "vega-transforms";
import * as views from "vega-view-transforms";
import * as encode from "vega-encode";
extend(transforms, rows, views, encode);
export { Marks, textMetrics } from "vega-scenegraph";
export { View } from "vega-view";`,
    }));
  },
};

/** Loads fontkit from a script of its own at first use. */
const lazyFontkit = {
  name: "lazy-fontkit",
  setup({ onLoad, onResolve }) {
    onResolve({ filter: /^\.\/fontkit\.cjs$/ }, ({ path }) => ({ path, external: true }));
    onLoad({ filter: /[\\/]load-fontkit\.ts$/ }, () => ({
      contents: `export const loadFontkit = () => require("./fontkit.cjs");`,
    }));
  },
};

/** Escapes scripts to ASCII, as V8 otherwise stores two bytes a character; line numbers are preserved. */
const ascii = {
  name: "ascii",
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]src[\\/].*\.ts$/ }, ({ path }) => ({
      contents: readFileSync(path, "utf8").replace(
        /[^\0-\x7f]/g,
        (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, "0")}`,
      ),
      loader: "ts",
    }));
  },
};

try {
  const bundled = await bundleProgram();
  await precompile();
  const page = await bundlePage();
  writeFileSync(join(made, "THIRD-PARTY.txt"), licenceTexts([...bundled, ...page, ...FONTS]));
  writeBuildId();
  replaceDist();
} catch (error) {
  process.stderr.write(`build: ${error instanceof Error ? error.message : error}\n`);
  process.exitCode = 1;
} finally {
  for (const path of [made, old]) rmSync(path, { recursive: true, force: true });
}

/** Bundles the program with code splitting: each command loads its own chunks and shared ones. Returns the packages in it. */
async function bundleProgram() {
  const { outputFiles, metafile } = await build({
    absWorkingDir: root,
    entryPoints: { cli: "src/cli/main.ts", fontkit: "fontkit" },
    outdir: made,
    write: false,
    bundle: true,
    splitting: true,
    platform: "node",
    target: "node20",
    format: "esm",
    outExtension: { ".js": ".cjs" },
    chunkNames: "[name]-[hash]",
    external: OUTSIDE,
    // Vega's canvas for Node needs a package that is not installed; the browser variant is never used for drawing.
    alias: { "vega-canvas": join(root, "node_modules/vega-canvas/build/vega-canvas.browser.js") },
    plugins: [omitUnused, slimVega, lazyFontkit, ascii],
    minifySyntax: true,
    minifyWhitespace: true,
    sourcemap: "inline",
    legalComments: "inline",
    metafile: true,
    logLevel: "silent",
    define: { "import.meta.url": "moduleUrl" },
  });
  mkdirSync(made, { recursive: true });
  await Promise.all(outputFiles.map(writeScript));
  return packagesOf(metafile);
}

/** Converts a bundle to CommonJS, which V8's code cache supports on every Node version. */
async function writeScript({ path, text }) {
  const { code, map } = await transform(text, {
    sourcefile: relative(made, path),
    format: "cjs",
    platform: "node",
    target: "node20",
    supported: { "dynamic-import": false },
    minifySyntax: true,
    minifyWhitespace: true,
    sourcemap: "external",
    sourcesContent: false,
    legalComments: "inline",
  });
  const { sources, ...rest } = JSON.parse(map);
  const named = sources.map((source) => relative(root, join(dist, source)));
  if (/[^\0-\x7f]/.test(code)) throw new Error(`${path} holds more than ASCII`);
  writeFileSync(path, code);
  writeFileSync(`${path}.map`, JSON.stringify({ ...rest, sources: named }));
}

/** Precompiles chart shapes and the shaping tables of common letters, and copies the fonts. */
async function precompile() {
  const folder = join(made, "beforehand");
  await build({
    absWorkingDir: root,
    entryPoints: ["src/charts/compile-shapes.ts", "src/pdf/font/compile-shaping.ts", "src/pdf/font/font-file.ts"],
    outdir: folder,
    outbase: "src",
    outExtension: { ".js": ".mjs" },
    bundle: true,
    packages: "external",
    platform: "node",
    format: "esm",
    logLevel: "silent",
  });
  const load = (...path) => import(pathToFileURL(join(folder, ...path)).href);
  const { compileShapes } = await load("charts", "compile-shapes.mjs");
  const { compileShaping } = await load("pdf", "font", "compile-shaping.mjs");
  const { families, resolveFontPaths } = await load("pdf", "font", "font-file.mjs");
  mkdirSync(join(made, "charts"), { recursive: true });
  writeFileSync(join(made, "charts", "shapes.json"), JSON.stringify(compileShapes()));
  mkdirSync(join(made, "fonts"), { recursive: true });
  writeFileSync(join(made, "fonts", "shaping.json"), JSON.stringify(compileShaping()));
  for (const path of families.flatMap((family) => Object.values(resolveFontPaths(undefined, family))))
    copyFileSync(path, join(made, "fonts", basename(path)));
  rmSync(folder, { recursive: true });
}

/** Writes a hash of the build; sheets of another build are made again. */
function writeBuildId() {
  const hash = createHash("sha256");
  for (const name of readdirSync(made, { recursive: true })
    .filter((one) => /\.(cjs|json|ttf)$/.test(one))
    .sort())
    hash.update(`${name}\0`).update(readFileSync(join(made, name)));
  writeFileSync(join(made, "build-id"), hash.digest("hex"));
}

/** Bundles the live page into one file, with the licences of its packages, which it returns. */
async function bundlePage() {
  const page = join(root, "src", "commands", "watch", "page");
  const { metafile } = await build({
    entryPoints: [join(page, "main.ts")],
    outfile: join(made, "live", "page.js"),
    absWorkingDir: root,
    bundle: true,
    format: "esm",
    target: "es2022",
    minify: true,
    legalComments: "none",
    metafile: true,
    logLevel: "silent",
  });
  for (const name of ["index.html", "page.css", "bench.css", "icon.svg"])
    copyFileSync(join(page, name), join(made, "live", name));
  const packages = packagesOf(metafile);
  writeFileSync(join(made, "live", "licences.txt"), licenceTexts(packages));
  return packages;
}

/** Replaces dist/, which takes two renames; retries when a concurrent build was faster. */
function replaceDist() {
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
