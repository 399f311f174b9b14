import { parse, type Spec } from "vega";
import { compile, type TopLevelSpec } from "vega-lite";
import { barShape } from "./bar-shape.ts";
import { leanRuntime, leanSpec } from "./lean-shape.ts";
import { lineShape } from "./line-shape.ts";
import type { RuntimeShape, RuntimeShapes } from "./shapes.ts";
import { strictLogger } from "./strict-logger.ts";

/** Every shape compiled and parsed; done at build time, for it needs vega-lite. A warning stops it. */
export function compileShapes(): RuntimeShapes {
  return { line: compileShape(lineShape()), bar: compileShape(barShape()) };
}

/** One shape, from what we write to what Vega runs: plain JSON. */
function compileShape(spec: TopLevelSpec): RuntimeShape {
  const { spec: vegaSpec } = compile(spec, { logger: strictLogger });
  return leanRuntime(JSON.parse(JSON.stringify(parse(leanSpec(vegaSpec as Spec))))) as unknown as RuntimeShape;
}
