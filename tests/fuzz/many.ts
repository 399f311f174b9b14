import { PDFiumLibrary } from "@hyzyla/pdfium";
import { fuzzCase } from "./cases.ts";
import { type Depth, type Examined, examine } from "./examine.ts";

/** The outcome of many cases; each fault names the seed of its case. */
export type Tried = {
  readonly tried: number;
  readonly made: number;
  readonly sheets: number;
  readonly painted: number;
  readonly slowest: number;
  readonly faults: readonly string[];
};

/** Of how many cases one is painted and read, and one is held to every rule of the file; the others are laid out; by which clock each is timed. */
export type Thoroughness = { readonly readEach: number; readonly rulesEach: number; readonly clock?: () => number };

/** Runs the cases of seeds [from, to); `look` gets every painted sheet with the name of its case. */
export async function tryMany(
  from: number,
  to: number,
  { readEach, rulesEach, clock = () => 0 }: Thoroughness,
  look: (pdf: Uint8Array, name: string) => void = () => undefined,
): Promise<Tried> {
  const pdfium = await PDFiumLibrary.init();
  let done: Tried = { tried: 0, made: 0, sheets: 0, painted: 0, slowest: 0, faults: [] };
  try {
    for (let number = from; number < to; number++) {
      const one = fuzzCase(number);
      const depth: Depth = number % rulesEach === 0 ? "ruled" : number % readEach === 0 ? "read" : "laid out";
      const examined = await examine(one, pdfium, depth, clock);
      const name = `case ${number} (${one.kind} of ${one.at}, job ${one.job})`;
      for (const pdf of examined.pdfs) look(pdf, name);
      done = added(done, examined, name);
    }
  } finally {
    pdfium.destroy();
  }
  return done;
}

const added = (done: Tried, { outcome, sheets, pdfs, milliseconds, faults }: Examined, name: string): Tried => ({
  tried: done.tried + 1,
  made: done.made + (outcome === "made" ? 1 : 0),
  sheets: done.sheets + sheets,
  painted: done.painted + pdfs.length,
  slowest: Math.max(done.slowest, milliseconds),
  faults: [...done.faults, ...faults.map((fault) => `${name}: ${fault}`)],
});
