import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { createProgram } from "../../src/cli/program.ts";
import { copyJobs, inProcess, quietWorld, type Ran, scratch } from "./run.ts";

const folder = scratch();
copyJobs(join(folder, "jobs", "alder-lane"), "alder-lane");
const JOB = "jobs/alder-lane/2026-026.yaml";
const OTHER = "jobs/alder-lane/2026-014.yaml";
const textOf = (name: string) => readFileSync(join(folder, name), "utf8");
const [sound, other] = [textOf(JOB), textOf(OTHER)];
writeFileSync(join(folder, "bad.yaml"), `${sound}nonsense: 1\n`);
writeFileSync(join(folder, "bench.csv"), "lift (in),intake (cfm),exhaust (cfm)\n0.1,42,33\n0.2,83.6,63.4\n");

const run = (...args: string[]): Promise<Ran> => inProcess(args, folder);
const { commands } = createProgram(quietWorld(folder), () => {});
const ESCAPE = "\u001b";

/** Rules of the Command Line Interface Guidelines (https://clig.dev), each by its section, and how it is tried here. */
const RULES: readonly (readonly [rule: string, tried: () => Promise<unknown>])[] = [
  [
    "basics: zero on success, other codes for the ways to fail",
    async () => {
      expect((await run("check", JOB)).code).toBe(0);
      expect((await run("check", "bad.yaml")).code).toBe(1);
      expect((await run("check", "--nonsense")).code).toBe(2);
    },
  ],
  [
    "basics: output to stdout, messages to stderr",
    async () => {
      expect((await run("figures", JOB, "--csv")).out).toMatch(/^[^\n,]+(,[^\n,]+)+\r?\n/);
      expect(await run("check", "bad.yaml")).toMatchObject({ out: "", err: expect.stringContaining("nonsense") });
    },
  ],
  ["help: with no argument help is shown", async () => expect((await run()).err).toContain("Usage: headsheet")],
  [
    "help: -h and --help alike, of the program and of each command",
    async () => {
      for (const name of [[], ...commands.map((one) => [one.name()])]) {
        const { code, out } = await run(...name, "--help");
        expect([name, code, out]).toEqual([name, 0, expect.stringMatching(/^Example: /)]);
        expect((await run(...name, "-h")).out).toBe(out);
      }
    },
  ],
  ["help: leads with an example", async () => expect((await run("--help")).out).toMatch(/^Example: /)],
  [
    "help: says where to report a fault",
    async () => expect((await run("--help")).out).toContain("Report a fault of the program"),
  ],
  [
    "help: what was probably meant is suggested, and not done",
    async () => {
      expect(await run("mak", JOB)).toMatchObject({
        code: 2,
        out: "",
        err: expect.stringContaining("Did you mean make?"),
      });
      expect((await run("make", "--papr", "A4")).err).toContain("Did you mean --paper?");
    },
  ],
  [
    "output: for programs there is --json, for spreadsheets --csv",
    async () => {
      for (const args of [["check", JOB], ["figures", JOB], ["diff", JOB, OTHER], ["shelf"]])
        expect(JSON.parse((await run(...args, "--json")).out)).toBeTypeOf("object");
      expect((await run("shelf", "--csv")).out).toMatch(/^[^\n,]+(,[^\n,]+)+\r?\n/);
    },
  ],
  [
    "output: success is brief, and names what was made",
    async () => {
      const { out } = await run("make", JOB);
      expect(out).toMatch(/^out\/\S+\.pdf\n$/);
      expect(existsSync(join(folder, out.trim()))).toBe(true);
    },
  ],
  [
    "output: a change of the disk beyond what was asked is said",
    async () => expect((await run("new", "a/new.yaml")).err).toBe("made the folder `a`\n"),
  ],
  [
    "output: no colour and no progress where it is not read by a terminal",
    async () => {
      for (const args of [["check", "bad.yaml"], ["make", "bad.yaml"], ["shelf"]]) {
        const { out, err } = await run(...args);
        expect(out + err).not.toContain(ESCAPE);
        expect(err).not.toContain("\r");
      }
    },
  ],
  [
    "errors: in words, with the place and the way out, without a trace",
    async () => {
      const { err } = await run("check", "bad.yaml");
      expect(err).toMatch(/error\[job\/unknown-key\]: unknown key `nonsense`\n +--> bad\.yaml:\d+:1/);
      for (const args of [
        ["check", "nosuch"],
        ["figures", "nosuch.yaml"],
        ["new", JOB],
        ["take", "no.csv", "--into", JOB],
      ])
        expect((await run(...args)).err).not.toMatch(/\n +at /);
    },
  ],
  [
    "errors: the most important stands last",
    async () => expect((await run("make", "bad.yaml", JOB)).err).toMatch(/ {2}refused: bad\.yaml\n.*1 job refused\n$/),
  ],
  [
    "arguments: every option has a long name in lower case, and says what it is for",
    async () => {
      for (const { options } of commands)
        for (const { long, description } of options)
          expect([long, description]).toEqual([
            expect.stringMatching(/^--[a-z]+(-[a-z]+)*$/),
            expect.stringMatching(/\S/),
          ]);
    },
  ],
  [
    "arguments: standard names",
    async () => {
      const names = new Set(commands.flatMap(({ options }) => options.map(({ long }) => long)));
      expect([...names]).toEqual(expect.arrayContaining(["--json", "--force", "--dry-run", "--port"]));
      expect((await run("--version")).out).toBe("0.0.0\n");
    },
  ],
  [
    "arguments: options before or after what they are about",
    async () => expect(await run("figures", "--csv", JOB)).toEqual(await run("figures", JOB, "--csv")),
  ],
  [
    "arguments: - stands for what is piped in",
    async () => {
      expect((await inProcess(["check", "-"], folder, undefined, "nonsense: 1\n")).code).toBe(1);
      const csv = textOf("bench.csv");
      const take = ["take", "-", "--into", OTHER, "--stage", "Piped", "--new-stage", "--dry-run"];
      expect((await inProcess(take, folder, undefined, csv)).out).toContain("name: Piped");
    },
  ],
  [
    "arguments: nothing of the user's is overwritten unasked",
    async () => {
      expect((await run("new", JOB)).code).not.toBe(0);
      expect((await run("take", "bench.csv", "--into", OTHER, "--stage", "Finished")).code).toBe(1);
      expect([textOf(JOB), textOf(OTHER)]).toEqual([sound, other]);
    },
  ],
  [
    "arguments: a dry run writes nothing and shows what would be written",
    async () => {
      const { code, out } = await run(
        "take",
        "bench.csv",
        "--into",
        OTHER,
        "--stage",
        "Dry",
        "--new-stage",
        "--dry-run",
      );
      expect([code, out]).toEqual([0, expect.stringContaining("name: Dry")]);
      expect(textOf(OTHER)).toBe(other);
    },
  ],
  [
    "subcommands: none is assumed, and none abbreviated",
    async () => {
      for (const args of [[JOB], ["fig", JOB], ["ma", JOB]])
        expect(await run(...args)).toMatchObject({ code: 2, out: "" });
    },
  ],
  [
    "robustness: what is typed is checked before anything is written",
    async () => {
      expect((await run("make", JOB, "--template", "nosuch", "--out", "early")).code).toBe(1);
      expect((await run("make", JOB, "--units", "flow=furlong", "--out", "early")).code).toBe(2);
      expect(existsSync(join(folder, "early"))).toBe(false);
    },
  ],
  [
    "robustness: run again it does what is left to do, and ends alike",
    async () => {
      const [first, again] = [await run("make", JOB), await run("make", JOB)];
      expect(again).toMatchObject({ code: 0, out: first.out });
    },
  ],
];

test.each(RULES)("%s", async (_, tried) => {
  await tried();
});
