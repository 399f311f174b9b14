import type { Environment, ExitCode } from "../environment.ts";
import { counted, report } from "../report.ts";
import { writeOutput } from "../write-output.ts";
import { isSound, type ShelfEntry } from "./shelf-entry.ts";
import { pdfPath, shelfPdf } from "./shelf-pdf.ts";
import { holdsPinch } from "./shelf-sheet.ts";
import { type ShownAs, shelfShop } from "./shelf-shop.ts";

type Shown = ShownAs & { readonly folder: string };

/** Writes the index to print, and says where and what is not in it. */
export async function printShelf(
  asked: string,
  entries: readonly ShelfEntry[],
  { folder, units, testPressure }: Shown,
  world: Environment,
): Promise<ExitCode> {
  const { pdf, diagnostics } = await shelfPdf(entries, shelfShop(folder, world), { units, testPressure }, world);
  report(diagnostics, new Map(), world);
  if (!pdf) return 1;
  const path = pdfPath(asked, world);
  writeOutput(path, pdf, world);
  const held = entries.filter(
    (entry) => holdsPinch(entry) && (entry.intake?.pinch_area_m2 ?? entry.exhaust?.pinch_area_m2),
  );
  const refused = entries.filter((entry) => !isSound(entry)).length;
  world.err(
    `${counted(entries.length - refused, "job")}${refused > 0 ? `, ${refused} refused and not in the index` : ""}${held.length > 0 ? `; pinch held back by ${counted(held.length, "job")}` : ""}\n`,
  );
  return 0;
}
