import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { copyJobs, inProcess, ROOT } from "../../cli/run.ts";

/** Three demo jobs with every kind of key between them; the second reads its runs from files, and the third holds back. */
const JOBS = [
  { job: "alder-lane/2026-014.yaml", readings: [] },
  { job: "fennick/f-231.yaml", readings: [] },
  { job: "alder-lane/2026-040.yaml", readings: readdirSync(join(ROOT, "jobs/alder-lane/bench")) },
] as const;

export type Tried = {
  readonly numbers: number;
  readonly refused: number;
  /** Places whose change replaced an issued file or was let through with another. */
  readonly silent: readonly string[];
};

/** Places of the numbers in a text, without its comments. */
const placesIn = (text: string): readonly { readonly start: number; readonly digits: string }[] =>
  [...text.matchAll(/#(?=\s).*$|(?<![\w.])\d+(?:\.\d+)?/gm)]
    .filter(([found]) => !found.startsWith("#"))
    .map((found) => ({ start: found.index, digits: found[0] }));

/** The number with another last digit. */
const changed = (digits: string) => `${digits.slice(0, -1)}${(Number(digits.at(-1)) + 1) % 10}`;

/**
 * Issues all sheets and the card of each job, changes one typed number after the other, every `each`th, and makes all again.
 * Whatever comes of it, no file that was issued may change.
 */
export async function changeNumbers(folder: string, each: number): Promise<Tried> {
  let [numbers, refused] = [0, 0];
  const silent: string[] = [];
  for (const [index, { job, readings }] of JOBS.entries()) {
    const cwd = join(folder, String(index));
    copyJobs(join(cwd, "jobs"));
    const run = async () => {
      const sheets = await inProcess(["make", `jobs/${job}`, "--template", "handover,engine,attachment"], cwd);
      const card = await inProcess(["card", `jobs/${job}`], cwd);
      return { codes: [sheets.code, card.code], err: sheets.err };
    };
    const first = await run();
    if (first.codes.join() !== "0,0") throw new Error(first.err);
    const issued = contents(join(cwd, "out"));
    for (const name of [job, ...readings.map((file) => `alder-lane/bench/${file}`)]) {
      const path = join(cwd, "jobs", name);
      const text = readFileSync(path, "utf8");
      for (const { start, digits } of placesIn(text)) {
        if (numbers++ % each > 0) continue;
        const other = changed(digits);
        writeFileSync(path, text.slice(0, start) + other + text.slice(start + digits.length));
        const { codes } = await run();
        if (codes[0] !== 0) refused++;
        const now = contents(join(cwd, "out"));
        const replaced = [...issued].filter(([file, bytes]) => now.get(file) !== bytes).map(([file]) => file);
        const line = text.slice(0, start).split("\n").length;
        if (replaced.length > 0) silent.push(`${name}:${line}: ${digits} to ${other}: ${replaced.join(", ")}`);
        for (const [file, bytes] of issued) writeFileSync(join(cwd, "out", file), Buffer.from(bytes, "base64"));
      }
      writeFileSync(path, text);
    }
  }
  return { numbers: Math.ceil(numbers / each), refused, silent };
}

const contents = (folder: string) =>
  new Map(
    readdirSync(folder)
      .filter((name) => /\.(pdf|png)$/.test(name))
      .map((name) => [name, readFileSync(join(folder, name)).toString("base64")]),
  );
