import { PDFiumLibrary } from "@hyzyla/pdfium";
import { fuzzCase } from "./cases.ts";
import { type Examined, examine } from "./examine.ts";

/** What came of many cases; each fault with the number that makes its case again. */
export type Tried = {
  readonly tried: number;
  readonly made: number;
  readonly sheets: number;
  readonly slowest: number;
  readonly faults: readonly string[];
};

/** Cases numbered from one number to before another; of each how many, one is held to every rule of the file. */
export async function tryMany(from: number, to: number, { rulesEach = 1 } = {}): Promise<Tried> {
  const pdfium = await PDFiumLibrary.init();
  let done: Tried = { tried: 0, made: 0, sheets: 0, slowest: 0, faults: [] };
  try {
    for (let number = from; number < to; number++) {
      const one = fuzzCase(number);
      const examined = await examine(one, pdfium, number % rulesEach === 0);
      done = added(done, examined, `case ${number} (${one.kind} of ${one.at}, job ${one.job})`);
    }
  } finally {
    pdfium.destroy();
  }
  return done;
}

const added = (done: Tried, { outcome, sheets, milliseconds, faults }: Examined, name: string): Tried => ({
  tried: done.tried + 1,
  made: done.made + (outcome === "made" ? 1 : 0),
  sheets: done.sheets + sheets,
  slowest: Math.max(done.slowest, milliseconds),
  faults: [...done.faults, ...faults.map((fault) => `${name}: ${fault}`)],
});
