import type { Figures } from "../figures/figures.ts";
import type { LoadedJob } from "../job/loaded-job.ts";
import type { Model } from "../model/model.ts";
import { parseWithheld } from "../sheet/withheld.ts";
import { jobCopy } from "./job-copy.ts";
import { readingsCsv } from "./readings-csv.ts";
import { shownFigures } from "./shown-figures.ts";

/** A file carried inside a sheet's PDF. */
export type Attachment = {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Media type, such as text/csv. */
  readonly type: string;
  readonly description: string;
  /** What the file is to the page: the data behind it, or the source that it was made from. */
  readonly relationship: "Data" | "Source";
};

/** What a sheet carries, as `report.embed` allows. A catalogue is made from other people's heads: it carries no job. */
export function embeddedFiles(project: LoadedJob, model: Model, figures: Figures): readonly Attachment[] {
  const { embed, holdBack } = model.report;
  if (embed === "none") return [];
  const readings = file(
    "readings.csv",
    "text/csv",
    "The readings on this sheet, as a table",
    "Data",
    readingsCsv(figures, model.units),
  );
  if (embed === "readings") return [readings];
  const shown = `${JSON.stringify(shownFigures(figures, parseWithheld(holdBack)), null, 1)}\n`;
  const numbers = file("figures.json", "application/json", "The figures behind this sheet, in SI units", "Data", shown);
  if (embed === "figures" || model.identity.kind === "product") return [readings, numbers];
  const copy = file(
    "job.yaml",
    "application/yaml",
    "The job that this sheet was made from, customer's copy",
    "Source",
    jobCopy(project, model),
  );
  return [readings, numbers, copy];
}

const file = (
  name: string,
  type: string,
  description: string,
  relationship: Attachment["relationship"],
  text: string,
): Attachment => ({ name, type, description, relationship, bytes: new TextEncoder().encode(text) });
