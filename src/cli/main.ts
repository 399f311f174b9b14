import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { CommanderError } from "commander";
import type { Environment, ExitCode } from "../commands/environment.ts";
import { UsageError } from "../commands/environment.ts";
import { readableStack } from "../commands/readable-stack.ts";
import { formatSystemError } from "../commands/report.ts";
import { visibleText } from "../diagnostics/visible.ts";
import { disk } from "../io/disk.ts";
import { readStream } from "../io/read-stream.ts";
import { isSystemError } from "../io/system-errors.ts";
import { createProgram } from "./program.ts";

/** Runs one command line. */
export async function run(argv: readonly string[], environment: Environment): Promise<ExitCode> {
  let code: ExitCode = 0;
  try {
    await createProgram(environment, (result) => {
      code = result;
    }).parseAsync(argv, { from: "user" });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    environment.err(formatFailure(error));
    return 2;
  }
}

/** Formats a failure for a terminal, with control characters in names escaped. */
function formatFailure(error: unknown): string {
  if (error instanceof UsageError) return `error: ${visibleText(error.message)}\n`;
  if (isSystemError(error)) return formatSystemError(error);
  const trace = readableStack(String(error instanceof Error ? error.stack : error).split("\n"), disk.readTextFile);
  return ["error: headsheet itself failed; the job is not at fault", ...trace.map(visibleText), ""].join("\n");
}

/** Whether messages are coloured: https://no-color.org, then what several programs take FORCE_COLOR for, then the terminal. */
export function showsColour(
  argv: readonly string[],
  { NO_COLOR, FORCE_COLOR, TERM }: NodeJS.ProcessEnv,
  terminal: boolean,
): boolean {
  if (argv.includes("--no-color") || NO_COLOR) return false;
  if (FORCE_COLOR !== undefined) return !["0", "false"].includes(FORCE_COLOR);
  return terminal && TERM !== "dumb";
}

/** The real environment: this process, this disk. */
function environmentOfProcess(): Environment {
  const home = dirname(dirname(fileURLToPath(import.meta.url)));
  const { version } = JSON.parse(disk.readTextFile(join(home, "package.json"))) as { version: string };
  // A dumb terminal cannot go back over a line of progress.
  const terminal = process.stderr.isTTY === true && process.env.TERM !== "dumb";
  return {
    io: disk,
    cwd: process.cwd(),
    out: (text) => process.stdout.write(text),
    err: (text) => process.stderr.write(text),
    colour: showsColour(process.argv, process.env, terminal),
    terminal,
    input: (largest) => readStream(process.stdin, largest),
    ...(process.stdout.isTTY && { width: process.stdout.columns }),
    home,
    version,
    today: new Date().toISOString().slice(0, 10),
  };
}

/** The program as started from the shell. */
export async function main(): Promise<void> {
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    // A reader that went away (`headsheet figures … | head`) is no failure; the sheets of a batch are made all the same.
    if (error.code === "EPIPE") return;
    process.stderr.write(formatFailure(error));
    process.exit(2);
  });
  // The reader of stderr has gone: the exit code alone reports the result.
  process.stderr.on("error", () => {});
  try {
    process.exitCode = await run(process.argv.slice(2), environmentOfProcess());
  } catch (error) {
    process.stderr.write(formatFailure(error));
    process.exitCode = 2;
  }
}
