import { join } from "node:path";
import type { Diagnostic, Sources } from "../diagnostics/diagnostic.ts";
import type { Io } from "../io/io.ts";

/** Everything a command reads from or writes to outside its arguments; tests pass a substitute. */
export type Environment = {
  readonly io: Io;
  readonly cwd: string;
  /** Writes data. */
  readonly out: (text: string) => void;
  /** Writes messages. */
  readonly err: (text: string) => void;
  /** Receives the diagnostics that are reported as messages. */
  readonly collect?: (diagnostics: readonly Diagnostic[], sources: Sources) => void;
  /** Messages go to a terminal that shows colour. */
  readonly colour: boolean;
  /** Messages go to a terminal: progress may be shown. */
  readonly terminal: boolean;
  /** Reads standard input; resolves to undefined beyond `largest` bytes. */
  readonly input?: (largest: number) => Promise<Uint8Array | undefined>;
  /** Columns of the terminal that receives the data; absent for a file or pipe. */
  readonly width?: number;
  /** Folder of the program itself, with its templates and chart shapes. */
  readonly home: string;
  readonly version: string;
  /** Today as YYYY-MM-DD, for starter files only; no sheet depends on it. */
  readonly today: string;
};

/** 0 all done, 1 a job refused, 2 wrong use or a failure of the program. */
export type ExitCode = 0 | 1 | 2;

/** Wrong use of a command: one line of message, exit code 2. */
export class UsageError extends Error {}

/** Version and hash of the running build; undefined when run from source. */
export function buildId({ io, home, version }: Environment): string | undefined {
  try {
    return `${version} ${io.readTextFile(join(home, "dist", "build-id"))}`;
  } catch {
    return undefined;
  }
}
