import { type ChildProcess, fork } from "node:child_process";
import { createHash } from "node:crypto";
import { appendFileSync, existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Attempt, Coverage, Outcome, Plan } from "./try-mutants.ts";
import type { Order } from "./worker.ts";
import { FOLDERS, type PlacedMutant, readWorld, type World } from "./world.ts";

type Kind = Outcome["kind"] | "never run";
type Entry = {
  readonly digest: string;
  readonly key: string;
  readonly kind: Kind;
  readonly by?: string;
  readonly budget: number;
};
type Options = {
  readonly folders: readonly string[];
  readonly sample?: number;
  readonly budget: number;
  readonly keep: boolean;
};
/** Survivors that were looked at, and why they may live. */
type Reasons = readonly {
  readonly reason: string;
  readonly mutants: readonly Pick<PlacedMutant, "file" | "code" | "becomes">[];
}[];

const WORKERS = 2;
/** A share of killed mutants below this fails the run. */
const LEAST = 0.85;
/** How many mutants a worker tries before it shows that without one all tests still pass. */
const CONTROL_EVERY = 150;

/** Tries the mutants, and prints how many were found out in each folder. Returns the exit code. */
export async function mutation(root: string, argv: readonly string[]): Promise<number> {
  const options = optionsOf(argv);
  const folder = join(root, "out", "mutation");
  mkdirSync(folder, { recursive: true });
  const world = readWorld(root);
  const coverage = await coverageOf(world, folder);
  const keys = keysOf(world.mutants);
  // In no order of their own and by turns of all folders, so that a run cut short is a fair sample of each.
  const drawn = FOLDERS.filter((name) => options.folders.includes(name)).map((name) =>
    shuffled(
      world.mutants.filter((one) => one.folder === name),
      keys,
    ).slice(0, options.sample),
  );
  const wanted = Array.from({ length: Math.max(...drawn.map((own) => own.length)) }, (_, n) =>
    drawn.flatMap((own) => own[n] ?? []),
  ).flat();
  const log = join(folder, "log.jsonl");
  const known = knownOutcomes(log, world, options);
  const open = wanted.filter((one) => !known.has(keys.get(one.id)!));
  say(`${wanted.length} of ${world.mutants.length} mutants, ${wanted.length - open.length} known already`);
  await tryAll(open, world, coverage, options.budget, (mutant, outcome) => {
    const entry: Entry = { digest: world.digest, key: keys.get(mutant.id)!, ...outcome, budget: options.budget };
    known.set(entry.key, entry);
    appendFileSync(log, `${JSON.stringify(entry)}\n`);
  });
  return report(root, wanted, (one) => known.get(keys.get(one.id)!)!, folder);
}

function optionsOf(argv: readonly string[]): Options {
  const value = (name: string) => (argv.includes(name) ? Number(argv[argv.indexOf(name) + 1]) : undefined);
  const folders = argv.filter((word) => (FOLDERS as readonly string[]).includes(word));
  return {
    folders: folders.length > 0 ? folders : FOLDERS,
    sample: value("--sample"),
    budget: value("--budget") ?? 20_000,
    keep: argv.includes("--keep-killed"),
  };
}

/** A mutant's name in the log: file, code, and which of its like it is. Lines may move. */
function keysOf(mutants: readonly PlacedMutant[]): ReadonlyMap<number, string> {
  const seen = new Map<string, number>();
  return new Map(
    mutants.map(({ id, file, code, becomes }) => {
      const key = `${file}: ${code} -> ${becomes}`;
      seen.set(key, (seen.get(key) ?? 0) + 1);
      return [id, `${key} #${seen.get(key)}`];
    }),
  );
}

/** What the log holds for these very sources and tests; with `keep` also what was ever killed, for tests that only grew. */
function knownOutcomes(log: string, { digest }: World, { keep, budget }: Options): Map<string, Entry> {
  if (!existsSync(log)) return new Map();
  const lines = readFileSync(log, "utf8")
    .split("\n")
    .filter((line) => line.endsWith("}"));
  const entries = lines.map((line) => JSON.parse(line) as Entry);
  const found = ({ kind }: Entry) => kind === "killed" || kind === "timed out";
  const stand = (one: Entry) =>
    found(one) ? keep || one.digest === digest : one.digest === digest && one.budget >= budget;
  return new Map(entries.filter(stand).map((entry) => [entry.key, entry]));
}

/** In an order that chance gives, by a digest of each name: an edit elsewhere leaves a sample as it was. */
function shuffled(mutants: readonly PlacedMutant[], keys: ReadonlyMap<number, string>): readonly PlacedMutant[] {
  return mutants
    .map((one) => ({ one, at: createHash("sha256").update(keys.get(one.id)!).digest("hex") }))
    .sort((a, b) => (a.at < b.at ? -1 : 1))
    .map(({ one }) => one);
}

/** What each file of tests touches, measured anew only where it may be another. */
async function coverageOf({ tests, digests }: World, folder: string): Promise<ReadonlyMap<string, Coverage>> {
  const path = join(folder, "coverage.json");
  const kept: Record<string, Coverage> = existsSync(path) ? JSON.parse(readFileSync(path, "utf8")) : {};
  const open = tests.filter((file) => kept[digests.get(file)!] === undefined);
  const worker = open.length > 0 ? await openWorker(folder) : undefined;
  for (const file of open) {
    const { answer } = await worker!.ask<Coverage>({ cover: file }, 600_000);
    if (answer === undefined) throw new Error(`${file} does not pass without a mutant`);
    kept[digests.get(file)!] = answer;
    writeFileSync(path, JSON.stringify(kept));
  }
  worker?.child.kill();
  return new Map(tests.map((file) => [file, kept[digests.get(file)!]!]));
}

/** Tests that take less than this go before all others of their kind [ms]. */
const QUICK = 300;

/** The tests that come by a mutant as far as the budget of time goes [ms]: of its own folder first, and quick ones first. */
function planFor(
  { id, folder }: PlacedMutant,
  coverage: ReadonlyMap<string, Coverage>,
  budget: number,
): { plan: Plan; ms: number } {
  const rank = (away: boolean, quick: boolean) => 2 * Number(away) + Number(!quick);
  const groups = [...coverage].flatMap(([file, { load, tests }]) => {
    const all = tests.map((test, n) => ({ n, ...test })).sort((a, b) => a.ms - b.ms);
    const chosen = load.hits[id] === undefined ? all.filter(({ hits }) => hits[id] !== undefined) : all;
    return [true, false].map((quick) => {
      const own = chosen.filter(({ ms }) => ms < QUICK === quick);
      const ms = own.reduce((sum, one) => sum + one.ms, load.ms);
      return { file, load: load.ms, tests: own, ms, rank: rank(!file.includes(`/tests/${folder}/`), quick) };
    });
  });
  groups.sort((a, b) => a.rank - b.rank || a.ms - b.ms);
  const opened = new Set<string>();
  const plan: { file: string; tests: number[] }[] = [];
  let left = budget;
  for (const { file, load, tests } of groups) {
    let rest = left - (opened.has(file) ? 0 : load);
    const fitting: number[] = [];
    for (const { n, ms } of tests) {
      if (ms > rest) break;
      rest -= ms;
      fitting.push(n);
    }
    if (fitting.length === 0) continue;
    opened.add(file);
    plan.push({ file, tests: fitting });
    left = rest;
  }
  return { plan, ms: budget - left };
}

/** More often than this no place is come by, unless a loop has no end. */
function limitFor(id: number, coverage: ReadonlyMap<string, Coverage>): number {
  const counts = [...coverage.values()].flatMap(({ load, tests }) => [load, ...tests].map(({ hits }) => hits[id] ?? 0));
  return 20 * Math.max(...counts) + 100_000;
}

async function tryAll(
  mutants: readonly PlacedMutant[],
  world: World,
  coverage: ReadonlyMap<string, Coverage>,
  budget: number,
  done: (mutant: PlacedMutant, outcome: { kind: Kind; by?: string }) => void,
): Promise<void> {
  const queue = [...mutants];
  const folder = join(process.cwd(), "out", "mutation");
  const short = [...coverage].filter(([, { load, tests }]) => tests.reduce((sum, { ms }) => sum + ms, load.ms) < 1500);
  const control: Plan = short.map(([file, { tests }]) => ({ file, tests: tests.map((_, n) => n) }));
  const start = Date.now();
  const work = async () => {
    let worker = await openWorker(folder);
    for (let tried = 0, one = queue.shift(); one !== undefined; tried += 1, one = queue.shift()) {
      const { plan, ms } = planFor(one, coverage, budget);
      const file = join(process.cwd(), "src", one.file);
      const attempt: Attempt = { id: one.id, file, limit: limitFor(one.id, coverage), plan };
      if (plan.length === 0) done(one, { kind: "never run" });
      else {
        const { answer, full } = await worker.ask<Outcome>({ attempt }, 30_000 + 6 * ms);
        done(one, answer ?? { kind: "timed out" });
        if (answer === undefined || full) {
          worker.child.kill("SIGKILL");
          worker = await openWorker(folder);
        } else if (tried % CONTROL_EVERY === CONTROL_EVERY - 1) {
          const none: Attempt = { id: -1, file: "", limit: 0, plan: control };
          const { answer: found } = await worker.ask<Outcome>({ attempt: none }, 600_000);
          if (found?.kind !== "survived")
            throw new Error(`a test fails with no mutant on: ${found?.by} after ${one.id}`);
        }
      }
      if (queue.length % 100 === 0) say(`${queue.length} left after ${Math.round((Date.now() - start) / 1000)} s`);
    }
    worker.child.kill();
  };
  if (world.mutants.length > 0) await Promise.all(Array.from({ length: Math.min(WORKERS, queue.length) }, work));
}

type Answer<A> = { readonly answer?: A; readonly full?: boolean };

/** A process that tries mutants one after another; an answer is left out where it dies or takes too long. */
async function openWorker(folder: string) {
  const child: ChildProcess = fork(join(folder, "worker.mjs"), {
    execArgv: ["--max-old-space-size=1500", "--disable-warning=ExperimentalWarning"],
    stdio: ["ignore", "ignore", process.env.MUTATION_DEBUG ? "inherit" : "ignore", "ipc"],
  });
  const next = <A>(patience: number) =>
    new Promise<Answer<A>>((resolve) => {
      const until = timeOf(child.pid!) + patience;
      const ended = (answer: Answer<A>) => {
        clearInterval(watch);
        child.off("message", ended);
        child.off("exit", gone);
        resolve(answer);
      };
      const gone = () => ended({});
      const watch = setInterval(() => timeOf(child.pid!) > until && gone(), 1000);
      child.on("message", ended);
      child.on("exit", gone);
    });
  await next(120_000);
  return {
    child,
    ask: <A>(order: Order, patience: number) => {
      const answer = next<A>(patience);
      if (child.connected) child.send(order);
      return answer;
    },
  };
}

/** Time that a process had of a processor [ms], so that a busy machine makes no mutant late; else time as it goes by. */
function timeOf(pid: number): number {
  try {
    const [user, system] = readFileSync(`/proc/${pid}/stat`, "utf8")
      .split(") ")[1]!
      .split(" ")
      .slice(11, 13)
      .map(Number);
    return 10 * (user! + system!);
  } catch {
    return Date.now();
  }
}

const say = (line: string) => process.stdout.write(`${line}\n`);

/** Prints the table and every survivor that nobody has given a reason for. */
function report(
  root: string,
  mutants: readonly PlacedMutant[],
  entryOf: (mutant: PlacedMutant) => Entry,
  folder: string,
): number {
  const nameOf = ({ file, code, becomes }: Pick<PlacedMutant, "file" | "code" | "becomes">) =>
    `${file}: ${code} -> ${becomes}`;
  const reasons = JSON.parse(readFileSync(join(root, "tests/mutation/survivors.json"), "utf8")) as Reasons;
  const excused = new Set(reasons.flatMap((group) => group.mutants.map(nameOf)));
  const lives = (one: PlacedMutant) => ["survived", "never run"].includes(entryOf(one).kind);
  const unexplained = mutants.filter((one) => lives(one) && !excused.has(nameOf(one)));
  writeFileSync(
    join(folder, "survivors.json"),
    JSON.stringify(
      unexplained.map((one) => ({ ...one, kind: entryOf(one).kind })),
      null,
      1,
    ),
  );
  for (const one of unexplained)
    say(`${one.file}:${one.line} ${entryOf(one).kind}\n  - ${one.code}\n  + ${one.becomes}`);
  const living = new Set(mutants.filter(lives).map(nameOf));
  for (const name of excused)
    if (!living.has(name) && FOLDERS.some((f) => name.startsWith(`${f}/`) && mutants.some((m) => m.folder === f)))
      say(`no survivor any more: ${name}`);
  say("| folder | mutants | killed | timed out | survived with reason | survived without | share killed |");
  say("|---|---|---|---|---|---|---|");
  let good = true;
  for (const name of FOLDERS) {
    const own = mutants.filter((one) => one.folder === name);
    if (own.length === 0) continue;
    const count = (test: (one: PlacedMutant) => boolean) => own.filter(test).length;
    const killed = count((one) => entryOf(one).kind === "killed");
    const late = count((one) => entryOf(one).kind === "timed out");
    const known = count((one) => lives(one) && excused.has(nameOf(one)));
    const share = (killed + late) / own.length;
    good &&= share >= LEAST;
    say(
      `| ${name} | ${own.length} | ${killed} | ${late} | ${known} | ${own.length - killed - late - known} | ${(100 * share).toFixed(1)} % |`,
    );
  }
  return good ? 0 : 1;
}
