import { resolve } from "node:path";
import { untilInterrupted } from "../../io/until-interrupted.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { UsageError } from "../environment.ts";
import { startLive } from "./start-live.ts";

/** Serves the live page until Ctrl-C; prints its address to stdout. */
export async function watch(
  asked: readonly string[],
  options: { port?: string },
  world: Environment,
): Promise<ExitCode> {
  const port = portOf(options.port);
  for (const path of asked)
    if (!world.io.stat(resolve(world.cwd, path)))
      throw new UsageError(`there is no \`${path}\`: name a job file or a folder, or start one with \`headsheet new\``);
  const live = await startLive(asked, port === undefined ? {} : { port }, world);
  const ended = untilInterrupted();
  world.out(`${live.address}\n`);
  world.err("open this address in a browser on this machine; Ctrl-C ends it\n");
  await ended;
  await live.close();
  return 0;
}

function portOf(typed: string | undefined): number | undefined {
  if (typed === undefined) return undefined;
  const port = Number(typed);
  if (!/^\d{1,5}$/.test(typed) || port < 1 || port > 65_535)
    throw new UsageError(`--port takes a number from 1 to 65535, not \`${typed}\``);
  return port;
}
