// Loads the built scripts by way of V8's code cache: a fifth of a short run would otherwise be spent on compiling. The first
// run of each Node leaves the cache in dist/; where that may not be written, runs are a little slower and nothing else.
import { mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { setFlagsFromString } from "node:v8";
import { Script } from "node:vm";

// Sheets leave much behind that is soon forgotten: without it a batch of a thousand takes twice the memory. Said before
// anything is compiled, for a cache made under other flags is not taken.
setFlagsFromString("--heap-growing-percent=50");
// Versions that were measured. What runs here is called some thousand times in all: before 24, Node compiles it in full after
// the first thousand, with much of what it calls, and again whenever it meets something new, which cost a page a sixth of the
// processor's time. And what a collection of young things leaves is so little that sharing it out among threads takes longer
// than to do it.
const MEASURED = {
  20: "--no-parallel-scavenge --interrupt-budget=500000 --max-inlined-bytecode-size-cumulative=300",
  22: "--no-parallel-scavenge --invocation-count-for-turbofan=10000",
  24: "--no-parallel-scavenge",
};
const flags = MEASURED[process.versions.node.split(".")[0]];
if (flags) setFlagsFromString(flags);

/** Runs a script of `folder` and those it requires, each once, and says what it exports. */
export function load(folder, name) {
  // By build, too: a build that ends while we run must not find our cache among its own.
  const build = readFileSync(join(folder, "build-id"), "latin1").slice(0, 16);
  const cache = join(folder, "cache", `${build}-${process.version}-${process.arch}`);
  const loaded = new Map();
  const fresh = [];

  const run = (name) => {
    const known = loaded.get(name);
    if (known) return known.exports;
    const module = { exports: {} };
    loaded.set(name, module);
    const path = join(folder, name);
    const cachedData = readOr(join(cache, name), undefined);
    const source = `(function(exports,require,module,moduleUrl){${readFileSync(path, "latin1")}\n})`;
    const script = new Script(source, { filename: path, cachedData });
    if (cachedData === undefined || script.cachedDataRejected) fresh.push([name, script]);
    const outside = createRequire(path);
    const require = (wanted) => (wanted.startsWith("./") ? run(wanted.slice(2)) : outside(wanted));
    script.runInThisContext()(module.exports, require, module, pathToFileURL(path).href);
    // As plain values: a getter each, as bundled, is asked anew at every call from one script into another.
    module.exports = { ...module.exports };
    return module.exports;
  };

  process.once("exit", () => keep(fresh, cache));
  return run(name);
}

/** Written when the run ends, with all that it compiled on its way; beside and renamed, for two runs may end at once. */
function keep(fresh, cache) {
  try {
    for (const [name, script] of fresh) {
      mkdirSync(cache, { recursive: true });
      const whole = join(cache, `${name}.${process.pid}`);
      writeFileSync(whole, script.createCachedData());
      renameSync(whole, join(cache, name));
    }
  } catch {
    // A program that was installed by somebody else: its folder is not ours to write.
  }
}

function readOr(path, otherwise) {
  try {
    return readFileSync(path);
  } catch {
    return otherwise;
  }
}
