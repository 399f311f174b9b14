// Builds the program into dist/: the sources and their packages bundled into a few files, and the compiled chart shapes.
// Everything is made beside it and moved into place at the end, so that a build which fails, or runs twice at once, leaves
// a whole dist/ behind. Types are checked by `npm run typecheck`, not here.
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
import { dirname, join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build, transform } from "esbuild";

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const dist = join(root, "dist");
const made = join(root, `dist.tmp-${process.pid}`);
const old = join(root, `dist.old-${process.pid}`);

/** Packages that few runs need, loaded from where they are installed. */
const OUTSIDE = ["@hyzyla/pdfium", "fontkit", "jpeg-js", "nodemailer"];

/** Parts of pdfkit that we never ask, and that take long to load: it opens no fonts, breaks no lines and locks no files for us. */
const withoutUnasked = {
  name: "without-unasked",
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^(fontkit|linebreak|@noble\/ciphers\/aes)$/ }, ({ path, importer }) =>
      /[\\/]pdfkit[\\/]/.test(importer) ? { path, namespace: "unasked" } : undefined,
    );
    onLoad({ filter: /./, namespace: "unasked" }, ({ path }) => ({
      contents: `const unasked = () => { throw new Error("${path} was left out of the build") };
export { unasked as create, unasked as cbc, unasked as ecb, unasked as default };`,
    }));
  },
};

/** Of Vega only what our shapes ask for: no maps, forces, hierarchies, regressions or word clouds, and no parser. */
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

/** Scripts are plain ASCII: one letter beyond it, and V8 holds two bytes for each. Lines stay where they are. */
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
  await bundleProgram();
  await workOutBeforehand();
  await bundlePage();
  nameBuild();
  putInPlace();
} catch (error) {
  process.stderr.write(`build: ${error instanceof Error ? error.message : error}\n`);
  process.exitCode = 1;
} finally {
  for (const path of [made, old]) rmSync(path, { recursive: true, force: true });
}

/** Each command loads its own part and what it shares with others. Packages that few runs need stay outside. */
async function bundleProgram() {
  const { outputFiles } = await build({
    absWorkingDir: root,
    entryPoints: { cli: "src/cli/main.ts" },
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
    // Vega's canvas for Node waits for a package that we do not have; its twin for browsers is never asked to draw.
    alias: { "vega-canvas": join(root, "node_modules/vega-canvas/build/vega-canvas.browser.js") },
    plugins: [withoutUnasked, slimVega, ascii],
    minifySyntax: true,
    minifyWhitespace: true,
    sourcemap: "inline",
    legalComments: "inline",
    logLevel: "silent",
    define: { "import.meta.url": "moduleUrl" },
  });
  mkdirSync(made, { recursive: true });
  await Promise.all(outputFiles.map(writeScript));
}

/** A bundled file as a script, for those can be loaded from V8's code cache on every Node we support. */
async function writeScript({ path, text }) {
  const { code, map } = await transform(text, {
    sourcefile: path,
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
  const named = sources.map((source) => relative(root, join(made, source)));
  if (/[^\0-\x7f]/.test(code)) throw new Error(`${path} holds more than ASCII`);
  writeFileSync(path, code);
  writeFileSync(`${path}.map`, JSON.stringify({ ...rest, sources: named }));
}

/** What is worked out once for every run: the shapes of charts, and how the fonts set common letters. */
async function workOutBeforehand() {
  const folder = join(made, "beforehand");
  await build({
    absWorkingDir: root,
    entryPoints: ["src/charts/compile-shapes.ts", "src/pdf/font/compile-shaping.ts"],
    outdir: folder,
    outbase: "src",
    outExtension: { ".js": ".mjs" },
    bundle: true,
    packages: "external",
    platform: "node",
    format: "esm",
    logLevel: "silent",
  });
  const { compileShapes } = await import(pathToFileURL(join(folder, "charts", "compile-shapes.mjs")).href);
  const { compileShaping } = await import(pathToFileURL(join(folder, "pdf", "font", "compile-shaping.mjs")).href);
  mkdirSync(join(made, "charts"), { recursive: true });
  writeFileSync(join(made, "charts", "shapes.json"), JSON.stringify(compileShapes()));
  mkdirSync(join(made, "fonts"), { recursive: true });
  writeFileSync(join(made, "fonts", "shaping.json"), JSON.stringify(compileShaping()));
  rmSync(folder, { recursive: true });
}

/** One word for all that was built: a sheet made by another build is made again. */
function nameBuild() {
  const hash = createHash("sha256");
  for (const name of readdirSync(made, { recursive: true })
    .filter((one) => /\.(cjs|json)$/.test(one))
    .sort())
    hash.update(`${name}\0`).update(readFileSync(join(made, name)));
  writeFileSync(join(made, "build-id"), hash.digest("hex"));
}

/** The live page's program for the browser: one file, so that nothing it is made of is needed later, and the licences of its parts. */
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
  for (const name of ["index.html", "page.css", "icon.svg"]) copyFileSync(join(page, name), join(made, "live", name));
  const packages = new Set(
    Object.keys(metafile.inputs).flatMap((path) => /.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path) ?? []),
  );
  const licences = [...packages].toSorted().map((path) => {
    const { name, version, license } = JSON.parse(readFileSync(join(root, path, "package.json"), "utf8"));
    return `${name} ${version} (${license})\n\n${readFileSync(join(root, path, "LICENSE"), "utf8").trim()}\n`;
  });
  writeFileSync(join(made, "live", "licences.txt"), licences.join(`\n${"-".repeat(72)}\n\n`));
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
