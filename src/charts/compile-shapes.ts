import { type Mark, parse, type Spec } from "vega";
import { compile, type TopLevelSpec } from "vega-lite";
import type { RuntimeShape, RuntimeShapes } from "./scenegraph.ts";
import { OUTLINE } from "./shape-parts.ts";
import { barShapeSpec, lineShapeSpec } from "./shape-specs.ts";
import { strictLogger } from "./vega-guards.ts";

/** Compiles every shape at build time, because vega-lite is no runtime dependency; throws on a warning. */
export function compileShapes(): RuntimeShapes {
  return { line: compileShape(lineShapeSpec()), bar: compileShape(barShapeSpec()) };
}

/** Compiles a Vega-Lite spec to a Vega dataflow as plain JSON. */
function compileShape(spec: TopLevelSpec): RuntimeShape {
  const { spec: vegaSpec } = compile(spec, { logger: strictLogger });
  return leanRuntime(JSON.parse(JSON.stringify(parse(leanSpec(vegaSpec as Spec))))) as unknown as RuntimeShape;
}

type Encoding = Readonly<Record<string, unknown>>;

/**
 * Reduces the work per row: drops Vega-Lite's test that a position is a number, which the recorder repeats, and turns point
 * marks with an outline into shape marks, which Vega-Lite lacks.
 */
function leanSpec(spec: Spec): Spec {
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

/** Operators for bounds, layout, rendering and lookup, needed on a screen only. */
const SCREEN_OPERATORS = ["bound", "viewlayout", "render", "sieve"];

type VegaOperator = { readonly id: number; readonly type: string };
type Runtime = { readonly operators: readonly VegaOperator[] };

/** Removes the operators for screens unless another operator refers to them. */
export function leanRuntime<R extends Runtime>(runtime: R): R {
  const stays = runtime.operators.filter(({ type }) => !SCREEN_OPERATORS.includes(type));
  const asked = new Set(stays.flatMap(collectRefs));
  return { ...runtime, operators: runtime.operators.filter((one) => stays.includes(one) || asked.has(one.id)) };
}

function collectRefs(value: unknown): readonly number[] {
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => (key === "$ref" ? [inner as number] : collectRefs(inner)));
}
