import * as vega from "vega";
import type { Measure } from "../text/measure.ts";
import type { DrawingItem, DrawingRole } from "./drawing.ts";
import type { Box } from "./geometry.ts";
import { Recorder } from "./recorder.ts";
import { PLACE } from "./shape-parts.ts";
import { createLoader, createLogger } from "./vega-guards.ts";

declare const runtime: unique symbol;
/** A compiled Vega dataflow as JSON, without data, titles or sizes. */
export type RuntimeShape = { readonly [runtime]: true };
export type RuntimeShapes = { readonly line: RuntimeShape; readonly bar: RuntimeShape };

/** Parses the shapes written by the build; throws if the build is older than the code. */
export function parseShapes(json: string): RuntimeShapes {
  const shapes = JSON.parse(json) as Partial<RuntimeShapes>;
  if (!shapes.line || !shapes.bar) throw new Error("the compiled chart shapes are incomplete: build again");
  return { line: shapes.line, bar: shapes.bar };
}

/** Input of a shape: rows in display units, signals for domains, ticks and colours. */
type ShapeInput = {
  readonly rows: Readonly<Record<string, readonly object[]>>;
  readonly signals: Readonly<Record<string, unknown>>;
};

// vega-scenegraph has no types; these cover what is used.
type Scene = {
  readonly marktype: string;
  readonly name?: string;
  readonly clip?: unknown;
  readonly items: readonly object[];
};
type Renderer = { readonly draw: (context: Recorder, scene: Scene) => void };
type Draw = (this: Renderer, context: Recorder, scene: Scene) => void;
const { Marks } = vega as unknown as { readonly Marks: Readonly<Record<string, { readonly draw: Draw }>> };

/** Role of a layer by the prefix of its name. */
const ROLES: Readonly<Record<string, DrawingRole>> = {
  curve: "curve",
  reading: "reading",
  error: "error-bar",
  band: "band",
  bar: "bar",
  axis: "axis",
  grid: "grid",
  shape: "shape",
};

function layerRole({ name = "" }: Scene): DrawingRole {
  const layer = Object.keys(ROLES).find((start) => name.startsWith(start));
  if (layer === undefined) throw new Error(`a chart draws something without a role: ${name}`);
  return ROLES[layer]!;
}

/** Fills a shape and records what Vega's marks draw, the panel's corner at (plot.x, plot.y). Mutates the rows. */
type DrawShape = (fill: ShapeInput, plot: Box, measure: Measure) => readonly DrawingItem[];
export type Shapes = { readonly line: DrawShape; readonly bar: DrawShape };

export const openShapes = ({ line, bar }: RuntimeShapes): Shapes => ({ line: openShape(line), bar: openShape(bar) });

/** Opens a shape; it reuses one view for all charts, because building a view takes longer than running it. */
export function openShape(shape: RuntimeShape): DrawShape {
  let kept: ReadyView | undefined;
  return (fill, plot, measure) => {
    const names = [...Object.keys(fill.rows), ...Object.keys(fill.signals)];
    const ready = kept !== undefined && isFilledBy(kept, names) ? kept : openView(shape, names);
    // A view that throws may be inconsistent and is dropped.
    kept = undefined;
    runView(ready, fill, plot);
    const items = recordScene((ready.view.scenegraph() as unknown as { root: Scene }).root, plot, measure);
    kept = ready;
    return items;
  };
}

/** A view of a shape. `filled`: names of its inputs; a view is reused only for the same names, or stale data would remain. */
type ReadyView = {
  readonly view: vega.View;
  readonly faults: string[];
  readonly filled: ReadonlySet<string>;
  /** Number of rows last given to each layer. */
  readonly counts: Map<string, number>;
};

const isFilledBy = ({ filled }: ReadyView, names: readonly string[]): boolean =>
  names.length === filled.size && names.every((name) => filled.has(name));

function openView(shape: RuntimeShape, names: readonly string[]): ReadyView {
  // Vega runs in a promise, where a thrown error would be lost or end the program later, so faults are collected.
  const faults: string[] = [];
  const fault = (message: string) => faults.push(message);
  const view = new vega.View(shape as unknown as vega.Runtime, {
    logger: createLogger(fault),
    loader: createLoader(fault),
    renderer: "none",
  });
  return { view, faults, filled: new Set(names), counts: new Map() };
}

function runView({ view, faults, counts }: ReadyView, { rows, signals }: ShapeInput, plot: Box): void {
  view.signal("width", plot.width).signal("height", plot.height);
  for (const [name, value] of Object.entries(signals)) view.signal(name, value);
  for (const [name, filling] of Object.entries(rows)) {
    if (filling.length === 0 && counts.get(name) === 0) continue;
    counts.set(name, filling.length);
    filling.forEach((row, place) => void Object.assign(row, { [PLACE]: place }));
    view.data(name, filling as object[]);
  }
  view.run();
  if (faults[0] !== undefined) throw new Error(faults[0]);
}

function recordScene(root: Scene, plot: Box, measure: Measure): readonly DrawingItem[] {
  const recorder = new Recorder(plot.x, plot.y, measure);
  const renderer: Renderer = {
    draw(ctx, scene) {
      if (scene.clip) throw new Error("a chart clips its rows, never its paint");
      if (scene.marktype !== "group") recorder.setRole(layerRole(scene));
      Marks[scene.marktype]!.draw.call(renderer, ctx, scene);
    },
  };
  renderer.draw(recorder, root);
  return recorder.items.filter((item) => item.kind === "path" || item.text !== "");
}
