import type { Facts, Part } from "../content.ts";
import type { BlockBuilder } from "../context.ts";
import { section } from "../section.ts";
import { stageTable } from "../stage-columns.ts";
import { cutRows } from "./cut-rows.ts";
import { hasSizesBySide } from "./dimensions.ts";

/** Seats and valves as cut, unless they stand with the sizes of each side, and heights as assembled. */
export const valveJob: BlockBuilder = (context, place) => {
  const assembly = context.model.text.assembly.filter(({ what }) => !context.withheld.names(what));
  const rows: Facts["rows"] = assembly.map(({ what, value }) => ({ label: what, value }));
  const facts: readonly Part[] = rows.length > 0 ? [{ kind: "facts", rows, compact: true }] : [];
  const bySide = hasSizesBySide(context);
  const title = bySide ? "As assembled" : "Valve job";
  return section(place, title, [...(bySide ? [] : stageTable(context, cutRows(context))), ...facts]);
};
