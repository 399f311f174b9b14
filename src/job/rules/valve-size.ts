import { error } from "../../diagnostics/build.ts";
import type { Path } from "../../parse/yaml/source-document.ts";
import { type PortFacts, valvesOf } from "../inherit.ts";
import type { JobPort } from "../schema/job.ts";
import type { JobRule } from "./rule.ts";
import { meantSize, typedSize } from "./typed.ts";

/** No valve of an engine whose head fits a flow bench is smaller or larger [m]: common practice. */
const POSSIBLE = [0.008, 0.15] as const;
/** A usual valve [m], where no throat tells which was meant. */
const USUAL = [0.018, 0.06] as const;
/** Usual range of throat ÷ valve diameter: common practice. */
const THROAT = [0.8, 0.92] as const;

const isImpossible = (head: number) => head < POSSIBLE[0] || head > POSSIBLE[1];

/** Whether a valve of the port is of a size that no valve has: it is reported, and nothing else is said of what is beside it. */
export const hasImpossibleValve = (facts: PortFacts): boolean =>
  valvesOf(facts, 1).some(({ head }) => head !== undefined && isImpossible(head));

/** Valves of a size that no valve has: a decimal point or a unit is wrong. Several in another unit are one slip. */
export const valveSize: JobRule = (input) => {
  const found = input.ports.flatMap(({ side, path, own: { valve }, facts: { throat } }) =>
    headsOf(valve, [...path, "valve"])
      .filter(([, head]) => isImpossible(head))
      .map(([at, head]) => ({ side, at, head, throat, unit: otherUnit(head) })),
  );
  const [first] = found;
  const isOneSlip = found.length > 1 && found.every(({ unit }) => unit !== undefined && unit === first?.unit);
  const reported = isOneSlip ? found.slice(0, 1) : found;
  return reported.map(({ side, at, head, throat, unit }) => {
    const size = head > POSSIBLE[1] ? "large" : "small";
    const typed = typedSize(at, head, "length", input);
    const low = throat === undefined ? USUAL[0] : Math.max(POSSIBLE[0], throat / THROAT[1]);
    const high = throat === undefined ? USUAL[1] : Math.min(POSSIBLE[1], throat / THROAT[0]);
    const inUnit = unit && `did you mean ${typed.replace(/[\s\u00a0]*[^\d.]*$/, "")} ${unit}?`;
    const meant = meantSize(at, "length", [low, high], input) ?? inUnit ?? "check the size and its unit";
    const more = `and ${found.length - 1} more: these sizes look like ${unit === "in" ? "inches" : "millimetres"} under another unit`;
    return error("job/valve-size", `no valve is as ${size} as this ${side} valve of ${typed}`, input.located.span(at), {
      hint: isOneSlip ? `write length: ${unit} under units` : meant,
      ...(isOneSlip ? { note: more } : {}),
    });
  });
};

/** The valves that a port states, each with its place. */
function headsOf(valve: JobPort["valve"], path: Path): readonly (readonly [Path, number])[] {
  if (Array.isArray(valve)) return valve.flatMap((one, k) => headsOf(one, [...path, k]));
  if (typeof valve === "number") return [[path, valve]];
  return typeof valve === "object" && typeof valve.head === "number" ? [[[...path, "head"], valve.head]] : [];
}

/** The unit in which the number would be a usual valve. */
function otherUnit(head: number): "in" | "mm" | undefined {
  const isUsual = (size: number) => size >= USUAL[0] && size <= USUAL[1];
  if (isUsual(head * MM_PER_INCH)) return "in";
  return isUsual(head / MM_PER_INCH) ? "mm" : undefined;
}

const MM_PER_INCH = 25.4;
