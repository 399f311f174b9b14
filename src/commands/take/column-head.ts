import { columnOfWord } from "../../job/readings/column-words.ts";
import type { ColumnName } from "../../job/readings/readings-head.ts";
import { findUnit, type Kind } from "../../units/table.ts";

/** Meaning of a spreadsheet column: `flow` is a reading without a stated side, `note` is text about the row. */
export type HeadName = ColumnName | "flow" | "note";
/** `when`: of a table that holds the readings before and after the work. */
export type ColumnHead = { readonly name: HeadName; readonly unit?: string; readonly when?: When };
export type When = "before" | "after";

/** Words in a head that add no meaning. */
const FILLER_WORDS = new Set(["valve", "port", "side", "air", "test", "measured", "of", "the"]);

/** Parses a column name without regard to case or filler words. */
function parseColumnName(text: string): HeadName | undefined {
  const words = text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
  const meant = new Set<string>();
  for (const word of words.filter((each) => !FILLER_WORDS.has(each))) {
    const found = columnOfWord(word);
    if (found === undefined) return undefined;
    meant.add(found);
  }
  const has = (name: string) => meant.delete(name);
  const only = (name: HeadName): HeadName | undefined => (meant.size === 0 ? name : undefined);
  if (has("note")) return only("note");
  const [range, pressure] = [has("range"), has("pressure")];
  const flow = has("flow");
  if (has("lift")) return flow || range || pressure ? undefined : only("lift");
  const side = has("intake") ? "intake" : has("exhaust") ? "exhaust" : undefined;
  if (range && pressure) return undefined;
  if (range) return only(side === undefined ? "range" : side === "intake" ? "range_i" : "range_e");
  if (pressure) return only(side === undefined ? "pressure" : side === "intake" ? "pressure_i" : "pressure_e");
  if (side !== undefined) return only(side);
  return flow ? only("flow") : undefined;
}

/** Kinds of unit that a column accepts; a bench may show percent of a range. */
function unitKinds(name: HeadName): readonly Kind[] {
  if (name === "lift") return ["length"];
  if (name.startsWith("pressure")) return ["pressure"];
  return name === "note" || name.startsWith("range") ? [] : ["flow", "ratio"];
}

const acceptsUnit = (name: HeadName, unit: string) =>
  unitKinds(name).some((kind) => findUnit(kind, unit) !== undefined && unit.trim() !== "");

/** The `before` or `after` in a head. */
export const parseWhen = (typed: string): When | undefined =>
  /\b(before|after)\b/i.exec(typed)?.[1]?.toLowerCase() as When | undefined;

/** Parses a head cell: `lift (mm)`, `Flow [l/s]`, `intake/cfm`, `Valve lift mm`, `Ex. before`; undefined for an unknown name. */
export function parseColumnHead(typed: string): ColumnHead | undefined {
  const when = parseWhen(typed);
  if (when === undefined) return parseNameAndUnit(typed);
  const head = parseNameAndUnit(typed.replace(/[\s_,:-]*\b(before|after)\b[\s_,:-]*/i, " ").trim());
  return head && { ...head, when };
}

function parseNameAndUnit(typed: string): ColumnHead | undefined {
  const bracketed = /^(.+?)[\s_]*[([{]([^)\]}]*)[)\]}]?[.:]?$/.exec(typed.trim());
  if (bracketed) {
    const name = parseColumnName(bracketed[1]!);
    const unit = bracketed[2]!.trim();
    return name && (unit === "" ? { name } : { name, unit });
  }
  for (const { index } of typed.matchAll(/[\s/_,.:-]+/g)) {
    const name = parseColumnName(typed.slice(0, index));
    const unit = typed.slice(index).replace(/^[\s/_,.:-]+/, "");
    if (name && acceptsUnit(name, unit)) return { name, unit };
  }
  const name = parseColumnName(typed);
  if (name) return { name };
  const [before = "", unit = ""] = typed.split(/\/(.*)/s);
  const slashed = parseColumnName(before);
  if (slashed && unit.trim() !== "") return { name: slashed, unit: unit.trim() };
  // A column named by its unit alone.
  return acceptsUnit("flow", typed)
    ? { name: "flow", unit: typed }
    : acceptsUnit("lift", typed)
      ? { name: "lift", unit: typed }
      : undefined;
}

/** Finds a unit of the column's kind at the end of a cell, for heads in another language. */
export function findUnitIn(typed: string, name: HeadName): string | undefined {
  const known = (unit: string | undefined) => (unit !== undefined && acceptsUnit(name, unit) ? unit.trim() : undefined);
  const bracketed = known(/[([{]([^)\]}]*)[)\]}]?\s*$/.exec(typed)?.[1]);
  if (bracketed !== undefined) return bracketed;
  for (const { index } of typed.matchAll(/[\s/_,]+/g)) {
    const found = known(typed.slice(index).replace(/^[\s/_,]+/, ""));
    if (found !== undefined) return found;
  }
  return undefined;
}

/** Parses a cell of the line under the names that holds only a unit, with or without brackets. */
export function parseBareUnit(typed: string): string | undefined {
  const unit = typed.trim().replace(/^[([{]\s*|\s*[)\]}]$/g, "");
  return (["length", "flow", "ratio", "pressure"] as const).some((kind) => unit !== "" && findUnit(kind, unit))
    ? unit
    : undefined;
}
