import type { Mark, Spec } from "vega";
import { OUTLINE } from "./shape-parts.ts";

type Encoding = Readonly<Record<string, unknown>>;

/**
 * The same marks with less to do for each row: Vega-Lite asks every position whether it is a number, which the recorder asks
 * again; and it has no mark whose points come placed, so that a point mark stands in for one.
 */
export function leanSpec(spec: Spec): Spec {
  return { ...spec, marks: spec.marks!.map(leanMark) };
}

function leanMark(mark: Mark): Mark {
  const update = mark.encode?.update as Encoding;
  const lean = Object.fromEntries(
    Object.entries(update).map(([channel, rule]) => [channel, Array.isArray(rule) ? rule.at(-1) : rule]),
  );
  const placed = (lean.shape as { readonly field?: string } | undefined)?.field === OUTLINE;
  return { ...mark, type: placed ? "shape" : mark.type, encode: { update: lean } } as Mark;
}

/** What only a screen needs of an item: its bounds, the page's layout, what to draw again, what to find again. */
const FOR_A_SCREEN = ["bound", "viewlayout", "render", "sieve"];

type Operator = { readonly id: number; readonly type: string };
type Runtime = { readonly operators: readonly Operator[] };

/** The same dataflow without the operators that only a screen needs, but for those that another one asks for. */
export function leanRuntime<R extends Runtime>(runtime: R): R {
  const stays = runtime.operators.filter(({ type }) => !FOR_A_SCREEN.includes(type));
  const asked = new Set(stays.flatMap(refsIn));
  return { ...runtime, operators: runtime.operators.filter((one) => stays.includes(one) || asked.has(one.id)) };
}

function refsIn(value: unknown): readonly number[] {
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => (key === "$ref" ? [inner as number] : refsIn(inner)));
}
