import { spawnSync } from "node:child_process";
import { cpSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { afterAll } from "vitest";
import { run } from "../../src/cli/main.ts";
import type { Environment } from "../../src/commands/environment.ts";
import { disk } from "../../src/io/disk.ts";
import type { Io } from "../../src/io/io.ts";

export const ROOT = new URL("../..", import.meta.url).pathname;
export const PROGRAM = join(ROOT, "bin", "headsheet.js");

/** The names in a folder, without what a run notes there for the next one, and the register. */
export const namesIn = (folder: string): string[] =>
  readdirSync(folder).filter((name) => name !== ".headsheet-made.json" && name !== "issued.csv");

/** Copies the demo jobs, or one shop's, to a folder, without the register of sheets that were made in this clone. */
export const copyJobs = (to: string, shop = ""): void =>
  cpSync(join(ROOT, "jobs", shop), to, {
    recursive: true,
    filter: (path) => !["issued.csv", ".headsheet"].includes(basename(path)),
  });

export type Ran = { readonly code: number | null; readonly out: string; readonly err: string };

/** An environment that discards all output. */
export const quietWorld = (cwd: string): Environment => ({
  io: disk,
  cwd,
  out: () => {},
  err: () => {},
  colour: false,
  terminal: false,
  home: ROOT,
  version: "0.0.0",
  today: "2026-03-14",
});

/** Runs a command line in this process, from a folder of its own: the same code, without a start-up each time. */
export async function inProcess(
  args: readonly string[],
  cwd: string,
  io: Io = disk,
  pasted = "",
  version = "0.0.0",
): Promise<Ran> {
  let out = "";
  let err = "";
  const world: Environment = {
    io,
    cwd,
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    colour: false,
    terminal: false,
    input: async () => new TextEncoder().encode(pasted),
    home: ROOT,
    version,
    today: "2026-03-14",
  };
  const code = await run(args, world);
  return { code, out, err };
}

/** Runs the built program as a porter would: its own process, from a folder of its own. */
export function headsheet(
  args: readonly string[],
  options: { cwd?: string; env?: Record<string, string>; node?: string } = {},
): Ran {
  const { status, stdout, stderr } = spawnSync(options.node ?? process.execPath, [PROGRAM, ...args], {
    cwd: options.cwd ?? ROOT,
    encoding: "utf8",
    // A shelf of thousands of jobs prints more than a megabyte.
    maxBuffer: 1 << 28,
    env: { ...process.env, NO_COLOR: "1", ...options.env },
  });
  return { code: status, out: stdout, err: stderr };
}

/** A folder that goes away after the tests of this file. */
export function scratch(): string {
  const folder = mkdtempSync(join(tmpdir(), "headsheet-"));
  // Thousands of files take their time on a busy disk.
  afterAll(() => {
    for (const path of [folder, stateOf(folder)]) rmSync(path, { recursive: true, force: true });
  }, 120_000);
  return folder;
}

/** Folder in which a program that runs in `folder` keeps its state. */
export const stateOf = (folder: string): string => `${folder}-state`;
