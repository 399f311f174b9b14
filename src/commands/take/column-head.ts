import type { ColumnName } from "../../job/readings/readings-head.ts";
import { findUnit, type Kind } from "../../units/table.ts";

/** What a column of somebody's spreadsheet holds; `flow` is a reading whose side is not said, `note` the words beside it. */
export type HeadName = ColumnName | "flow" | "note";
export type ColumnHead = { readonly name: HeadName; readonly unit?: string };

const WORDS: Readonly<Record<string, readonly string[]>> = {
  lift: ["lift", "lifts", "l"],
  intake: ["intake", "intakes", "inlet", "inl", "int", "in", "i"],
  exhaust: ["exhaust", "exhausts", "exh", "exhst", "ex", "outlet", "out", "e"],
  pressure: ["pressure", "press", "depression", "p", "dp"],
  range: ["range", "rng"],
  note: ["note", "notes", "remark", "remarks", "comment", "comments", "reason"],
  flow: ["flow", "flows", "reading", "readings", "q"],
};
/** Words that say nothing that the others do not. */
const FILLING = new Set(["valve", "port", "side", "air", "test", "measured", "of", "the"]);

const meaning = (word: string): string | undefined => Object.keys(WORDS).find((name) => WORDS[name]!.includes(word));

/** What a name means, forgiving of case and of words around it. */
function nameOf(text: string): HeadName | undefined {
  const words = text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
  const meant = new Set<string>();
  for (const word of words.filter((each) => !FILLING.has(each))) {
    const found = meaning(word);
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

/** The kinds of units that may stand in a column's head; a bench may show percent of a range. */
function kindsOf(name: HeadName): readonly Kind[] {
  if (name === "lift") return ["length"];
  if (name.startsWith("pressure")) return ["pressure"];
  return name === "note" || name.startsWith("range") ? [] : ["flow", "ratio"];
}

const knows = (name: HeadName, unit: string) =>
  kindsOf(name).some((kind) => findUnit(kind, unit) !== undefined && unit.trim() !== "");

/** A head cell: `lift (mm)`, `Flow [l/s]`, `intake/cfm`, `Valve lift mm`, `Ex.`; undefined when it is none that we know. */
export function columnHead(typed: string): ColumnHead | undefined {
  const bracketed = /^(.+?)[\s_]*[([{]([^)\]}]*)[)\]}]?[.:]?$/.exec(typed.trim());
  if (bracketed) {
    const name = nameOf(bracketed[1]!);
    const unit = bracketed[2]!.trim();
    return name && (unit === "" ? { name } : { name, unit });
  }
  for (const { index } of typed.matchAll(/[\s/_,.:-]+/g)) {
    const name = nameOf(typed.slice(0, index));
    const unit = typed.slice(index).replace(/^[\s/_,.:-]+/, "");
    if (name && knows(name, unit)) return { name, unit };
  }
  const name = nameOf(typed);
  if (name) return { name };
  const [before = "", unit = ""] = typed.split(/\/(.*)/s);
  const slashed = nameOf(before);
  if (slashed && unit.trim() !== "") return { name: slashed, unit: unit.trim() };
  // A column named by its unit alone.
  return knows("flow", typed)
    ? { name: "flow", unit: typed }
    : knows("lift", typed)
      ? { name: "lift", unit: typed }
      : undefined;
}

/** The unit that stands in a cell of any name, where it is one of the kinds wanted: for a head in another language. */
export function unitIn(typed: string, name: HeadName): string | undefined {
  const known = (unit: string | undefined) => (unit !== undefined && knows(name, unit) ? unit.trim() : undefined);
  const bracketed = known(/[([{]([^)\]}]*)[)\]}]?\s*$/.exec(typed)?.[1]);
  if (bracketed !== undefined) return bracketed;
  for (const { index } of typed.matchAll(/[\s/_,]+/g)) {
    const found = known(typed.slice(index).replace(/^[\s/_,]+/, ""));
    if (found !== undefined) return found;
  }
  return undefined;
}

/** Whether a cell holds nothing but a unit, with or without brackets: of the line under the names. */
export function bareUnit(typed: string): string | undefined {
  const unit = typed.trim().replace(/^[([{]\s*|\s*[)\]}]$/g, "");
  return (["length", "flow", "ratio", "pressure"] as const).some((kind) => unit !== "" && findUnit(kind, unit))
    ? unit
    : undefined;
}
