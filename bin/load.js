// Loads the built scripts through V8's code cache, which saves a fifth of a short run. The first run of each Node version writes
// the cache into dist/; without write access, runs are a little slower.
import { mkdirSync, readFileSync, renameSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { setFlagsFromString } from "node:v8";
import { Script } from "node:vm";

// Rendering allocates many short-lived objects: without this flag a batch of a thousand takes twice the memory. Flags must be set
// before anything is compiled, as V8 rejects a cache made under other flags.
setFlagsFromString("--heap-growing-percent=50");
// Flags by measured Node version. Before 24, V8 optimises a function after about a thousand calls and deoptimises it on new
// types: without the flags a batch on Node 20 takes 32 % more processor time. Parallel scavenging costs more than it saves, as
// few young objects survive.
const MEASURED = {
  20: "--no-parallel-scavenge --interrupt-budget=500000 --max-inlined-bytecode-size-cumulative=300",
  22: "--no-parallel-scavenge --invocation-count-for-turbofan=10000",
  24: "--no-parallel-scavenge",
};
const flags = MEASURED[process.versions.node.split(".")[0]];
if (flags) setFlagsFromString(flags);

/** Runs a script of `folder` and the scripts it requires, each once, and returns its exports. */
export function load(folder, name) {
  // The build is part of the path: a build that ends during this run must not pick up our cache.
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
    // Copies the bundled getters to plain values, which are faster to call across scripts.
    module.exports = { ...module.exports };
    return module.exports;
  };

  process.once("exit", () => saveCache(fresh, cache));
  return run(name);
}

/** Writes the code compiled during the run, atomically, as two runs may end at once. */
function saveCache(fresh, cache) {
  try {
    for (const [name, script] of fresh) {
      mkdirSync(cache, { recursive: true });
      const whole = join(cache, `${name}.${process.pid}`);
      writeFileSync(whole, script.createCachedData());
      renameSync(whole, join(cache, name));
    }
  } catch {
    // The folder of an installed program may be read-only.
  }
}

function readOr(path, otherwise) {
  try {
    return readFileSync(path);
  } catch {
    return otherwise;
  }
}
