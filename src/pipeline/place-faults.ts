import type { Diagnostic, Span } from "../diagnostics/diagnostic.ts";
import type { SourceDocument, YamlValue } from "../parse/yaml/source-document.ts";
import type { Project } from "../project/project.ts";
import { isMap } from "../util/is-map.ts";

/**
 * Gives a place to each diagnostic that has none: the block's line in the shop's own template, else the line of the job that asks
 * for the sheet.
 */
export function placeFaults(
  diagnostics: readonly Diagnostic[],
  { job, located }: Pick<Project, "job" | "located">,
  template?: SourceDocument,
): readonly Diagnostic[] {
  const ofJob = () => located.span(job.sheet ? ["sheet"] : job.product ? ["product", "part"] : ["job"]);
  return diagnostics.map((one) => {
    if (one.at) return one;
    const ofBlock = one.block !== undefined && template ? blockSpan(one.block, template) : undefined;
    return { ...one, at: ofBlock ?? ofJob() };
  });
}

/** The place of a block in a template: alone in its row, side by side with others, or with options. */
function blockSpan(block: string, { value, span }: SourceDocument): Span | undefined {
  const rows = isMap(value) && Array.isArray(value.rows) ? (value.rows as readonly YamlValue[]) : [];
  const named = (cell: YamlValue) => cell === block || (isMap(cell) && cell.block === block);
  for (const [row, cells] of rows.entries()) {
    if (named(cells)) return span(["rows", row]);
    const column = Array.isArray(cells) ? cells.findIndex(named) : -1;
    if (column >= 0) return span(["rows", row, column]);
  }
  return undefined;
}
