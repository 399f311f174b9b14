import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import fc from "fast-check";
import { inProcess } from "../cli/run.ts";
import { fuzzCase } from "./cases.ts";
import { flowTables, texts } from "./hostile.ts";
import { SHOPS } from "./shops.ts";

/** Processor time that no command may take [ms]. */
const LONGEST = 5_000;

export type TriedCommands = {
  readonly tried: number;
  readonly done: number;
  readonly slowest: number;
  readonly faults: readonly string[];
};

/** Commands by number of case: those that draw are dearer, and rarer. */
const COMMANDS = [
  ...["check", "figures", "take", "diff", "check", "take", "diff", "figures"],
  ...["make", "check", "take", "figures", "card", "diff", "mail", "form"],
] as const;
const ODD_FOLDERS = ["", "/proc/x", "/dev/null", "shop.yaml", "/proc/self/fd/0/x"];

/** The arguments of a case: its command with options that follow from its number. */
function argumentsOf(number: number, job: string): readonly string[] {
  const command = COMMANDS[number % COMMANDS.length]!;
  const turn = Math.floor(number / COMMANDS.length);
  const out = turn % 7 === 3 ? ODD_FOLDERS[turn % ODD_FOLDERS.length]! : "out";
  switch (command) {
    case "check":
      return [command, job];
    case "figures":
      return [command, job, ...([["--json"], ["--csv"], []][turn % 3] as string[])];
    case "diff":
      return [command, ...(turn % 2 ? [job, "sound.yaml"] : ["sound.yaml", job]), ...(turn % 3 ? [] : ["--json"])];
    case "take":
      return [
        command,
        "bench.csv",
        "--into",
        job,
        "--stage",
        turn % 2 ? "Finished" : "As received",
        ...TAKE[turn % 3]!,
      ];
    case "form":
      return [command, job, "--out", out];
    default:
      return [command, job, "--out", out, ...(command === "make" ? ["--force"] : [])];
  }
}
const TAKE = [["--replace"], ["--new-stage"], ["--cylinder", "2"]] as const;

const readings = fc.oneof(
  { weight: 3, arbitrary: flowTables },
  { weight: 1, arbitrary: texts },
  { weight: 1, arbitrary: fc.uint8Array({ maxLength: 300 }) },
);

/** Runs the cases of numbers [from, to) in a folder, each a harmed shop and one command. */
export async function tryCommands(
  folder: string,
  from: number,
  to: number,
  clock: () => number,
): Promise<TriedCommands> {
  const tried = { tried: to - from, done: 0, slowest: 0, faults: [] as string[] };
  for (let number = from; number < to; number++) {
    const one = fuzzCase(number);
    const cwd = join(folder, "desk");
    rmSync(cwd, { recursive: true, force: true });
    for (const [path, content] of Object.entries(one.files)) {
      const file = join(cwd, path.replace(/^\/shop\//, ""));
      mkdirSync(dirname(file), { recursive: true });
      writeFileSync(file, content);
    }
    const sound = SHOPS.find(({ job, files }) => job in one.files && files[job] !== undefined) ?? SHOPS[0]!;
    writeFileSync(join(cwd, "sound.yaml"), sound.files[sound.job]!);
    writeFileSync(join(cwd, "bench.csv"), fc.sample(readings, { seed: number, numRuns: 1 })[0]!);
    const args = argumentsOf(number, one.job.replace(/^\/shop\//, ""));
    const start = clock();
    const faults: string[] = [];
    try {
      const { code, err } = await inProcess(args, cwd);
      faults.push(...faultsIn(code, err));
      if (code === 0) tried.done++;
    } catch (error) {
      faults.push(`threw ${error instanceof Error ? error.stack : String(error)}`);
    }
    const took = clock() - start;
    tried.slowest = Math.max(tried.slowest, took);
    if (took > LONGEST) faults.push(`took ${Math.round(took)} ms`);
    tried.faults.push(
      ...faults.map((fault) => `case ${number} (${args.join(" ")}; ${one.kind} of ${one.at}): ${fault}`),
    );
  }
  return tried;
}

/** A stack trace, an error without a place, or an exit code without its reason. */
function faultsIn(code: number | null, err: string): readonly string[] {
  const blocks = err.split("\n\n").filter((block) => /^error\[/m.test(block));
  return [
    ...(/itself failed|^\s+at .*:\d+:\d+\)?$/m.test(err) ? [`a stack trace: ${err}`] : []),
    ...blocks.filter((block) => !/^ *--> \S/m.test(block)).map((block) => `no place: ${block}`),
    ...(code === 1 && blocks.length === 0 ? [`refused without a reason: ${err}`] : []),
    ...(code === 2 && !/^error: /m.test(err) ? [`wrong use without a reason: ${err}`] : []),
  ];
}
