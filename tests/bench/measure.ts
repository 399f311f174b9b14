import { spawnSync } from "node:child_process";

export const median = (values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)]!;
};

/** What a process used: time of the processor and of the clock [ms], and its largest size [MB]. */
export type Used = { readonly cpu: number; readonly wall: number; readonly rss: number };

/** Runs Node once and says what it used. */
export function once(args: readonly string[]): Used {
  const start = performance.now();
  const { status, stderr, output } = spawnSync(process.execPath, ["--require=./tests/bench/report-use.cjs", ...args], {
    stdio: ["ignore", "ignore", "pipe", "pipe"],
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  if (status !== 0) throw new Error(`${args.join(" ")} ended with ${status}: ${stderr}`);
  return { ...(JSON.parse(output[3]!) as { cpu: number; rss: number }), wall: performance.now() - start };
}

/** Medians of commands run in turn, so that all of them see the same machine. */
export function inTurn(commands: Readonly<Record<string, readonly string[]>>, runs: number): Record<string, Used> {
  const all = Object.fromEntries(Object.keys(commands).map((name) => [name, [] as Used[]]));
  for (let run = -1; run < runs; run++)
    for (const [name, args] of Object.entries(commands)) {
      const used = once(args);
      if (run >= 0) all[name]!.push(used);
    }
  const middle = (used: readonly Used[], what: keyof Used) => median(used.map((one) => one[what]));
  return Object.fromEntries(
    Object.entries(all).map(([name, used]) => [
      name,
      { cpu: middle(used, "cpu"), wall: middle(used, "wall"), rss: middle(used, "rss") },
    ]),
  );
}

/** Medians of the processor's time [ms] of pieces of work done in turn, once they are warm. */
export async function warm(
  works: Readonly<Record<string, () => Promise<unknown>>>,
  runs: number,
): Promise<Record<string, number>> {
  const all = Object.fromEntries(Object.keys(works).map((name) => [name, [] as number[]]));
  for (let run = -runs; run < runs; run++)
    for (const [name, work] of Object.entries(works)) {
      const start = process.cpuUsage();
      await work();
      const { user, system } = process.cpuUsage(start);
      if (run >= 0) all[name]!.push((user + system) / 1000);
    }
  return Object.fromEntries(Object.entries(all).map(([name, times]) => [name, median(times)]));
}

/** The exponent of growth through points of size and cost: 1 is in proportion (least squares on logarithms). */
export function exponent(points: readonly (readonly [size: number, cost: number])[]): number {
  const logs = points.map(([size, cost]) => [Math.log(size), Math.log(cost)] as const);
  const mean = (at: 0 | 1) => logs.reduce((sum, point) => sum + point[at], 0) / logs.length;
  const [x, y] = [mean(0), mean(1)];
  const across = logs.reduce((sum, [a, b]) => sum + (a - x) * (b - y), 0);
  return across / logs.reduce((sum, [a]) => sum + (a - x) ** 2, 0);
}
