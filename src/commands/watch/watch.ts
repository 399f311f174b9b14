import { resolve } from "node:path";
import { untilInterrupted } from "../../io/until-interrupted.ts";
import type { Environment, ExitCode } from "../environment.ts";
import { UsageError } from "../environment.ts";
import { lastingAddress } from "./lasting-address.ts";
import { type LiveServer, startLive } from "./start-live.ts";

/** Serves the live page until Ctrl-C; prints its address to stdout, which is that of the last start unless a fresh one is asked for. */
export async function watch(
  asked: readonly string[],
  options: { port?: string; fresh?: true },
  world: Environment,
): Promise<ExitCode> {
  const port = portOf(options.port);
  for (const path of asked)
    if (!world.io.stat(resolve(world.cwd, path)))
      throw new UsageError(`there is no \`${path}\`: name a job file or a folder, or start one with \`headsheet new\``);
  const live = await startAtLastAddress(asked, port, options.fresh === true, world);
  const ended = untilInterrupted();
  world.out(`${live.address}\n`);
  world.err("open this address in a browser on this machine; Ctrl-C ends it\n");
  await ended;
  await live.close();
  return 0;
}

/** Starts the page at its last address. Where another program has that port, at a new one, with a new secret, as the other may have seen it. */
async function startAtLastAddress(
  asked: readonly string[],
  port: number | undefined,
  fresh: boolean,
  world: Environment,
): Promise<LiveServer> {
  const { last, keep } = lastingAddress(asked, world.cwd);
  const known = fresh || (port !== undefined && port !== last?.port) ? undefined : last;
  if (known)
    try {
      return await startLive(asked, known, world);
    } catch (error) {
      if (!(error instanceof UsageError) || port !== undefined) throw error;
      const live = await startLive(asked, {}, world);
      world.err("another program has the port of the last address: this one is new\n");
      return live;
    }
  const live = await startLive(asked, port === undefined ? {} : { port }, world);
  keep({ port: live.port, token: live.token });
  return live;
}

function portOf(typed: string | undefined): number | undefined {
  if (typed === undefined) return undefined;
  const port = Number(typed);
  if (!/^\d{1,5}$/.test(typed) || port < 1 || port > 65_535)
    throw new UsageError(`--port takes a number from 1 to 65535, not \`${typed}\``);
  return port;
}
