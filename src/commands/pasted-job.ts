import { resolve } from "node:path";
import type { Io } from "../io/io.ts";
import { overlayIo } from "../io/overlay-io.ts";
import { FILE_LIMITS } from "../project/limits.ts";
import type { Environment } from "./environment.ts";
import { UsageError } from "./environment.ts";

/** The name of a pasted job in messages. */
const NAME = "pasted.yaml";

/** A job from standard input, as if it were a file of the working folder; nothing is written there. */
export async function readPasted({ io, cwd, input }: Environment): Promise<{ readonly path: string; readonly io: Io }> {
  const bytes = await input?.(FILE_LIMITS.yaml);
  if (!bytes) throw new UsageError(`no job of at most ${FILE_LIMITS.yaml / 1024} kB was pasted`);
  const path = resolve(io.realPath(cwd) ?? cwd, NAME);
  const here = overlayIo(io, path, new TextDecoder().decode(bytes));
  return {
    path,
    io: {
      ...here,
      stat: (asked) => (asked === path ? { kind: "file", size: bytes.length } : io.stat(asked)),
      realPath: (asked) => (asked === path ? path : io.realPath(asked)),
    } as Io,
  };
}
