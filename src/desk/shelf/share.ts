import type { Pascals } from "../../units/quantity.ts";
import type { Kept } from "./shelf-cache.ts";

/** Work that threads share: each takes the next few of the files until none is left. */
export type Share = {
  readonly folder: string;
  /** Below the folder. */
  readonly files: readonly string[];
  /** Of each where it really stands, if the list of its folder tells. */
  readonly reals: readonly (string | undefined)[];
  readonly testPressure: Pascals;
  /** How many are taken, in memory that the threads share. */
  readonly taken: Int32Array<SharedArrayBuffer>;
};

export type Done = readonly (readonly [index: number, Kept])[];

/** The name of the built script that a thread runs. */
export const SHARE_SCRIPT = "shelf-share.cjs";

export const nothingTaken = () => new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
