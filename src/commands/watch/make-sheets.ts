import { type Environment, UsageError } from "../environment.ts";
import type { MakeResult } from "./bench-messages.ts";

/** Does what `make` does for one job, and returns what it says. */
export async function makeSheets(path: string, world: Environment): Promise<MakeResult> {
  let [out, err] = ["", ""];
  const environment: Environment = {
    ...world,
    colour: false,
    terminal: false,
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
  };
  const { make } = await import("../make/make.ts");
  try {
    const code = await make([path], { outFolder: "out", png: false }, environment);
    return { made: code === 0, files: out.split("\n").filter((line) => line !== ""), said: err };
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    return { made: false, files: [], said: error.message };
  }
}
