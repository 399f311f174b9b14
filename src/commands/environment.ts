import type { Io } from "../io/io.ts";

/** What a command may touch: handed in, so that tests can watch. */
export type Environment = {
  readonly io: Io;
  readonly cwd: string;
  /** Data. */
  readonly out: (text: string) => void;
  /** Messages. */
  readonly err: (text: string) => void;
  /** Messages go to a terminal that shows colour. */
  readonly colour: boolean;
  /** Messages go to a terminal: progress may be shown. */
  readonly terminal: boolean;
  /** What is typed or pasted into the program, at most `largest` bytes; undefined when there is more. Not every world has it. */
  readonly input?: (largest: number) => Promise<Uint8Array | undefined>;
  /** Columns of the terminal that data go to; absent when they go elsewhere. */
  readonly width?: number;
  /** Folder of the program's own files: templates, shapes. */
  readonly home: string;
  readonly version: string;
  /** Today as YYYY-MM-DD, for starter files only: no sheet ever asks. */
  readonly today: string;
};

/** 0 all done, 1 a job refused, 2 wrong use or our own failure. */
export type ExitCode = 0 | 1 | 2;
