import { isMap } from "../../util/is-map.ts";
import type { BenchAct } from "../take/bench-act.ts";
import type { BenchRequest, EnterRequest } from "./bench-messages.ts";

/** Longest name, number or reason that is accepted [characters]. */
const LONGEST = 200;
const MOST_SKIPPED = 100;

const isWord = (value: unknown): value is string => typeof value === "string" && value.length <= LONGEST;
const isSide = (value: unknown) => value === "intake" || value === "exhaust";
const isIndex = (value: unknown) => Number.isInteger(value) && (value as number) >= 0;
const isOptional = (value: unknown, type: string) => value === undefined || typeof value === type;

export function isBench(value: unknown): value is BenchRequest {
  if (!isMap(value) || typeof value.text !== "string" || !isMap(value.choice)) return false;
  const { stage, run, side, skipped } = value.choice;
  return (
    (stage === undefined || isWord(stage)) &&
    (run === undefined || isIndex(run)) &&
    isSide(side) &&
    (skipped === undefined || (Array.isArray(skipped) && skipped.length <= MOST_SKIPPED && skipped.every(isWord)))
  );
}

export const isEnter = (value: unknown): value is EnterRequest =>
  isBench(value) && isAct((value as { readonly act?: unknown }).act);

function isAct(act: unknown): act is BenchAct {
  if (!isMap(act)) return false;
  if (act.kind === "reason") return isIndex(act.row) && isWord(act.words);
  if (!isSide(act.side) || !isWord(act.typed)) return false;
  if (act.kind === "cell") return isIndex(act.row);
  return (
    act.kind === "reading" && isWord(act.lift) && isOptional(act.again, "boolean") && isOptional(act.over, "boolean")
  );
}
