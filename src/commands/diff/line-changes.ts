import type { JobText } from "../../model/model.ts";
import type { Line } from "./job-diff.ts";

/** Lines of work, checks and parts that one of two jobs has and the other has not. */
export function lineChanges(a: JobText, b: JobText): { readonly added: Line[]; readonly removed: Line[] } {
  const [before, after] = [linesOf(a), linesOf(b)];
  return { added: without(after, before), removed: without(before, after) };
}

function without(lines: readonly Line[], others: readonly Line[]): Line[] {
  const known = new Set(others.map(keyOf));
  return lines.filter((line) => !known.has(keyOf(line)));
}

const keyOf = ({ list, text }: Line) => `${list}\n${text}`;
const joined = (parts: readonly (string | undefined)[]) => parts.filter(Boolean).join(", ");

function linesOf({ work, notDone, checks, parts, alsoMeasured, cautions }: JobText): Line[] {
  return [
    ...work.flatMap(({ area, items }) => items.map((item) => ({ list: "work", text: `${area}: ${item}` }))),
    ...notDone.map((text) => ({ list: "not done", text })),
    ...checks.map(({ check, method, result, value, limit }) => ({
      list: "checks",
      text: joined([check, method, result, value, limit && `limit ${limit}`]),
    })),
    ...parts.map(({ part, quantity, note }) => ({
      list: "parts",
      text: joined([part, quantity && `× ${quantity}`, note]),
    })),
    ...alsoMeasured.map(({ what, values, how }) => ({
      list: "also measured",
      text: joined([what, ...values.map(({ label, value }) => `${label} ${value}`), how]),
    })),
    ...cautions.map((text) => ({ list: "cautions", text })),
  ];
}
