import { error } from "../../diagnostics/build.ts";
import type { Path } from "../../parse/yaml/source-document.ts";
import { type PortFacts, valvesOf } from "../inherit.ts";
import { ofEachPort } from "./rule.ts";
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

/** A valve of a size that no valve has: its decimal point or its unit is wrong. */
export const valveSize = ofEachPort(({ side, path, own, facts: { throat } }, input) => {
  const heads = (Array.isArray(own.valve) ? own.valve : [own.valve]).flatMap((valve, k): [Path, number][] => {
    const at = Array.isArray(own.valve) ? [...path, "valve", k] : [...path, "valve"];
    if (typeof valve === "number") return [[at, valve]];
    return typeof valve === "object" && typeof valve.head === "number" ? [[[...at, "head"], valve.head]] : [];
  });
  return heads
    .filter(([, head]) => isImpossible(head))
    .map(([at, head]) => {
      const size = head > POSSIBLE[1] ? "large" : "small";
      const range = throat === undefined ? USUAL : ([throat / THROAT[1], throat / THROAT[0]] as const);
      return error(
        "job/valve-size",
        `no valve is as ${size} as this ${side} valve of ${typedSize(at, head, "length", input)}`,
        input.located.span(at),
        { hint: meantSize(at, "length", range, input) ?? "check the size and its unit" },
      );
    });
});
