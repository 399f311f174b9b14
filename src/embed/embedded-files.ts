import type { Figures } from "../figures/figures.ts";
import type { LoadedJob } from "../job/loaded-job.ts";
import type { Model } from "../model/model.ts";
import { parseWithheld } from "../sheet/withheld.ts";
import { buildJobCopy } from "./job-copy.ts";
import { formatReadingsCsv } from "./readings-csv.ts";
import { shownFigures } from "./shown-figures.ts";

/** A file carried inside a sheet's PDF. */
export type Attachment = {
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Media type, such as text/csv. */
  readonly type: string;
  readonly description: string;
  /** AFRelationship: the data behind the sheet, or the source that it was made from. */
  readonly relationship: "Data" | "Source";
};

/** Builds the attachments that `report.embed` allows. A product is compiled from several heads, so it has no job copy. */
export function buildAttachments(project: LoadedJob, model: Model, figures: Figures): readonly Attachment[] {
  const { embed, holdBack } = model.report;
  // Readings of other jobs stay in those jobs.
  if (embed === "none" || model.firstHead) return [];
  const readings = textAttachment(
    "readings.csv",
    "text/csv",
    "The readings on this sheet, as a table",
    "Data",
    formatReadingsCsv(figures, model.units),
  );
  if (embed === "readings") return [readings];
  const shown = `${JSON.stringify(shownFigures(figures, parseWithheld(holdBack)), null, 1)}\n`;
  const numbers = textAttachment(
    "figures.json",
    "application/json",
    "The figures behind this sheet, in SI units",
    "Data",
    shown,
  );
  if (embed === "figures" || model.identity.kind === "product") return [readings, numbers];
  const copy = textAttachment(
    "job.yaml",
    "application/yaml",
    "The job that this sheet was made from, customer's copy",
    "Source",
    buildJobCopy(project, model),
  );
  return [readings, numbers, copy];
}

const textAttachment = (
  name: string,
  type: string,
  description: string,
  relationship: Attachment["relationship"],
  text: string,
): Attachment => ({ name, type, description, relationship, bytes: new TextEncoder().encode(text) });
