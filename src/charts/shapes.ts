declare const runtime: unique symbol;
/** A chart's shape as Vega runs it: JSON without data, titles or sizes. */
export type RuntimeShape = { readonly [runtime]: true };
export type RuntimeShapes = { readonly line: RuntimeShape; readonly bar: RuntimeShape };

/** The shapes that the build wrote; throws when they are not there, for then the build is older than the code. */
export function readShapes(json: string): RuntimeShapes {
  const shapes = JSON.parse(json) as Partial<RuntimeShapes>;
  if (!shapes.line || !shapes.bar) throw new Error("the compiled chart shapes are incomplete: build again");
  return { line: shapes.line, bar: shapes.bar };
}
