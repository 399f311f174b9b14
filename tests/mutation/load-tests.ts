import { readFileSync } from "node:fs";
import { dirname, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import vm from "node:vm";
import { transformSync } from "esbuild";
import fc from "fast-check";
import * as vitest from "vitest";

export type TestCase = { readonly name: string; readonly run: () => unknown; readonly before: readonly Hook[] };
/** Something done once before the tests of a suite. */
type Hook = { readonly run: () => unknown; done: boolean };
export type LoadedTests = { readonly tests: readonly TestCase[]; readonly after: readonly (() => unknown)[] };
/** Says which mutant is on; called at each place of each mutant. */
export type Switch = { is(n: number): boolean };
/** Modules that were run already, by path. */
export type Modules = Map<string, { exports: unknown }>;
export type Loader = {
  /** Runs a file of tests with all it imports that is not among the modules yet, and collects its tests. */
  load(path: string, modules: Modules): LoadedTests;
  /** Whether one file imports the other, itself or by way of others. */
  reaches(from: string, to: string): boolean;
};

type Compiled = { readonly run: ReturnType<typeof vm.compileFunction>; readonly imports: readonly string[] };

/**
 * Opens a small stand-in for vitest that runs the same test files in this process as often as wanted: each mutant needs
 * modules of its own, and a new process for each would take seconds. `expect` is vitest's own.
 *
 * @param entries  files of tests
 * @param mutated  sources that stand for what is on disk, by path
 */
export async function openLoader(
  entries: readonly string[],
  mutated: ReadonlyMap<string, string>,
  $: Switch,
): Promise<Loader> {
  const files = new Map<string, Compiled>();
  const packages = new Map<string, unknown>();
  const found: { tests: TestCase[]; after: (() => unknown)[] } = { tests: [], after: [] };
  packages.set("vitest", { ...vitest, ...suites(found), __esModule: true });
  packages.set("fast-check", { ...fc, default: withoutShrinking(), __esModule: true });
  const open = [...entries];
  for (let path = open.pop(); path !== undefined; path = open.pop()) {
    if (files.has(path)) continue;
    const file = compile(path, mutated.get(path) ?? readFileSync(path, "utf8"));
    files.set(path, file);
    for (const name of file.imports)
      if (name.startsWith(".")) open.push(resolve(dirname(path), name));
      else if (!packages.has(name)) packages.set(name, await packageOf(name));
  }

  const required = (path: string, modules: Modules): unknown => {
    const known = modules.get(path);
    if (known) return known.exports;
    const module = { exports: {} as unknown };
    modules.set(path, module);
    const need = (name: string) =>
      name.startsWith(".") ? required(resolve(dirname(path), name), modules) : packages.get(name);
    files.get(path)!.run(need, module, module.exports, pathToFileURL(path).href, $);
    return module.exports;
  };
  const reached = new Map<string, ReadonlySet<string>>();
  const reach = (path: string): ReadonlySet<string> => {
    const known = reached.get(path);
    if (known) return known;
    const near = files.get(path)!.imports.filter((name) => name.startsWith("."));
    const all = new Set(near.map((name) => resolve(dirname(path), name)).flatMap((one) => [one, ...reach(one)]));
    reached.set(path, all);
    return all;
  };
  return {
    load(path, modules) {
      Object.assign(found, { tests: [], after: [] });
      required(path, modules);
      return { ...found };
    },
    reaches: (from, to) => from === to || reach(from).has(to),
  };
}

function compile(path: string, text: string): Compiled {
  const source = path.endsWith(".json") ? `module.exports = ${text}` : text;
  const { code } = transformSync(source, {
    loader: path.endsWith(".json") ? "js" : "ts",
    format: "cjs",
    target: "node20",
    define: { "import.meta.url": "__url" },
    sourcefile: path,
  });
  // A file that is imported later has mutants as well; a package that is may come from disk.
  const joined = code.replace(/\bimport\(("\.[^"]+")\)/g, "Promise.resolve(require($1))");
  const run = vm.compileFunction(joined, ["require", "module", "exports", "__url", "$"], {
    filename: path,
    importModuleDynamically: vm.constants.USE_MAIN_CONTEXT_DEFAULT_LOADER as never,
  });
  return { run, imports: [...joined.matchAll(/\brequire\("([^"]+)"\)/g)].map((match) => match[1]!) };
}

/** A package as a module that says of itself that it is one, so that its default is not taken for the whole. */
async function packageOf(name: string): Promise<unknown> {
  const own = (await import(name)) as { default?: unknown };
  return { ...own, default: own.default ?? own, __esModule: true };
}

/** A property that fails is enough: the smallest example is not wanted here, and may take long to find. */
function withoutShrinking() {
  return {
    ...fc,
    configureGlobal: (parameters: Parameters<typeof fc.configureGlobal>[0]) =>
      fc.configureGlobal({ ...parameters, endOnFailure: true }),
  };
}

/** What tests take from vitest to say that they are tests. */
function suites(found: { tests: TestCase[]; after: (() => unknown)[] }) {
  let before: readonly Hook[] = [];
  const within = (name: string, body: () => void) => {
    const outer = before;
    body();
    before = outer;
    return name;
  };
  const test = (name: string, body: () => unknown) => {
    found.tests.push({ name, run: body, before });
  };
  const each =
    <R>(one: (name: string, body: () => R) => void) =>
    (rows: readonly unknown[]) =>
    (name: string, body: (...row: unknown[]) => R) => {
      for (const row of rows) one(name, () => (Array.isArray(row) ? body(...row) : body(row)));
    };
  return {
    describe: Object.assign(within, { each: each<void>(within) }),
    test: Object.assign(test, { each: each<unknown>(test) }),
    beforeAll: (run: () => unknown) => {
      before = [...before, { run, done: false }];
    },
    afterAll: (run: () => unknown) => void found.after.push(run),
  };
}
