import { type LoadedTests, type Modules, openLoader, type TestCase } from "./load-tests.ts";

/** What one test touches: how often each mutant's place was come by, and the processor's time that it takes [ms]. */
export type Covered = { readonly ms: number; readonly hits: Readonly<Record<number, number>> };
/** What a file of tests touches: while it is read in, and in each of its tests. */
export type Coverage = { readonly load: Covered; readonly tests: readonly Covered[] };
/** Tests to run, by their place in their file. */
export type Plan = readonly { readonly file: string; readonly tests: readonly number[] }[];
export type Attempt = { readonly id: number; readonly file: string; readonly limit: number; readonly plan: Plan };
export type Outcome = { readonly kind: "killed" | "timed out" | "survived"; readonly by?: string };

/** A test that waits longer than this for something has hung [ms]. */
const PATIENCE = 300_000;

/** Opens a bench on which mutants are tried one after another. */
export async function openBench(entries: readonly string[], mutated: ReadonlyMap<string, string>, count: number) {
  const hits = new Float64Array(count + 1);
  let active = -1;
  let left = 0;
  let endless = false;
  const counting = (n: number) => {
    hits[n]! += 1;
    return false;
  };
  const trying = (n: number) => {
    if (n !== active) return false;
    left -= 1;
    if (left >= 0) return true;
    endless = true;
    throw new Error("an endless loop");
  };
  const $ = { is: counting };
  const loader = await openLoader(entries, mutated, $);
  /** What no mutant so far could change. */
  const kept: Modules = new Map();

  return {
    /** Runs every test of a file with no mutant on. Throws where one fails. */
    async cover(file: string): Promise<Coverage> {
      $.is = counting;
      const measured = async (run: () => unknown): Promise<Covered> => {
        hits.fill(0);
        const start = process.cpuUsage();
        await run();
        const { user, system } = process.cpuUsage(start);
        const ms = (user + system) / 1000;
        return { ms, hits: Object.fromEntries([...hits.entries()].filter(([, n]) => n > 0)) };
      };
      let loaded: LoadedTests | undefined;
      const load = await measured(() => {
        loaded = loader.load(file, new Map());
      });
      const tests: Covered[] = [];
      for (const test of loaded!.tests) tests.push(await measured(() => runTest(test)));
      for (const after of loaded!.after) await after();
      return { load, tests };
    },
    /** Runs the planned tests up to the first that fails with this mutant on. */
    async attempt({ id, file, limit, plan }: Attempt): Promise<Outcome> {
      $.is = trying;
      active = id;
      endless = false;
      const modules: Modules = new Map([...kept].filter(([path]) => !loader.reaches(path, file)));
      const loaded = new Map<string, LoadedTests>();
      let name = "";
      try {
        for (const { file: path, tests } of plan) {
          left = limit;
          name = `${path}: is not even read in`;
          const known = loaded.get(path) ?? loader.load(path, modules);
          loaded.set(path, known);
          for (const n of tests) {
            const test = known.tests[n];
            // A list of tests that the mutant made shorter is a failure as well.
            name = `${path}: ${test?.name ?? "a test is missing"}`;
            left = limit;
            await runTest(test!);
          }
        }
        return { kind: "survived" };
      } catch {
        return { kind: endless ? "timed out" : "killed", by: name };
      } finally {
        for (const { after } of loaded.values()) for (const run of after) await run();
        for (const [path, module] of modules)
          if (path.includes("/src/") && !loader.reaches(path, file)) kept.set(path, module);
      }
    },
  };
}

async function runTest(test: TestCase): Promise<void> {
  for (const hook of test.before) {
    if (!hook.done) await hook.run();
    hook.done = true;
  }
  const ended = test.run();
  if (!(ended instanceof Promise)) return;
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise((_, reject) => {
    timer = setTimeout(() => reject(new Error("it hangs")), PATIENCE);
  });
  await Promise.race([ended, late]).finally(() => clearTimeout(timer));
}
