import * as vega from "vega";
import type { Measure } from "../text/measure.ts";
import type { DrawingItem, DrawingRole } from "./drawing.ts";
import { type Recorder, recorder } from "./recorder.ts";
import { PLACE } from "./shape-parts.ts";
import type { RuntimeShape, RuntimeShapes } from "./shapes.ts";
import { loggerOf } from "./strict-logger.ts";

/** What fills a shape: rows in display units, signals for domains, ticks and colours. */
export type Fill = {
  readonly rows: Readonly<Record<string, readonly object[]>>;
  readonly signals: Readonly<Record<string, unknown>>;
};
export type Box = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };

// vega-scenegraph has no types: what we use of it is written down here and nowhere else.
type Scene = {
  readonly marktype: string;
  readonly name?: string;
  readonly clip?: unknown;
  readonly items: readonly object[];
};
type Renderer = { readonly draw: (context: Recorder["context"], scene: Scene) => void };
type Draw = (this: Renderer, context: Recorder["context"], scene: Scene) => void;
const { Marks } = vega as unknown as { readonly Marks: Readonly<Record<string, { readonly draw: Draw }>> };

/** Nothing a chart names is ever fetched. */
function loaderOf(fault: (message: string) => void): vega.Loader {
  const refuse = (name: string) => {
    fault(`a chart loads nothing: ${name}`);
    return Promise.reject(new Error("a chart loads nothing"));
  };
  return { load: refuse, sanitize: refuse, http: refuse, file: refuse } as unknown as vega.Loader;
}

/** What a layer draws, by how our name for it begins. */
const LAYERS: Readonly<Record<string, DrawingRole>> = {
  curve: "curve",
  reading: "reading",
  error: "error-bar",
  band: "band",
  bar: "bar",
  axis: "axis",
  grid: "grid",
  shape: "shape",
};

function roleOf({ name = "" }: Scene): DrawingRole {
  const layer = Object.keys(LAYERS).find((start) => name.startsWith(start));
  if (layer === undefined) throw new Error(`a chart draws something without a role: ${name}`);
  return LAYERS[layer]!;
}

/** Fills a shape and lets Vega's own marks draw it into items, the panel's corner at (plot.x, plot.y). Takes the rows over. */
export type DrawShape = (fill: Fill, plot: Box, measure: Measure) => readonly DrawingItem[];
export type Shapes = { readonly line: DrawShape; readonly bar: DrawShape };

export const openShapes = ({ line, bar }: RuntimeShapes): Shapes => ({ line: openShape(line), bar: openShape(bar) });

/** Building a view takes longer than running it: the shape keeps its view, filled again for every chart. */
export function openShape(shape: RuntimeShape): DrawShape {
  let kept: ReadyView | undefined;
  return (fill, plot, measure) => {
    const names = [...Object.keys(fill.rows), ...Object.keys(fill.signals)];
    const ready = kept !== undefined && isFilledBy(kept, names) ? kept : openView(shape, names);
    // What goes wrong may leave anything behind: then the view is not kept.
    kept = undefined;
    runView(ready, fill, plot);
    const items = record((ready.view.scenegraph() as unknown as { root: Scene }).root, plot, measure);
    kept = ready;
    return items;
  };
}

/** What Vega makes of a shape. `filled`: the names of all that fills it, for what is not filled anew would stay. */
type ReadyView = {
  readonly view: vega.View;
  readonly faults: string[];
  readonly filled: ReadonlySet<string>;
  /** How many rows each layer was filled with. */
  readonly counts: Map<string, number>;
};

const isFilledBy = ({ filled }: ReadyView, names: readonly string[]): boolean =>
  names.length === filled.size && names.every((name) => filled.has(name));

function openView(shape: RuntimeShape, names: readonly string[]): ReadyView {
  // Vega runs in a promise of its own, where an error thrown would be lost, or end the program later: faults are kept.
  const faults: string[] = [];
  const fault = (message: string) => faults.push(message);
  const view = new vega.View(shape as unknown as vega.Runtime, {
    logger: loggerOf(fault),
    loader: loaderOf(fault),
    renderer: "none",
  });
  return { view, faults, filled: new Set(names), counts: new Map() };
}

function runView({ view, faults, counts }: ReadyView, { rows, signals }: Fill, plot: Box): void {
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

function record(root: Scene, plot: Box, measure: Measure): readonly DrawingItem[] {
  const { items, context, setRole } = recorder(plot.x, plot.y, measure);
  const renderer: Renderer = {
    draw(ctx, scene) {
      if (scene.clip) throw new Error("a chart clips its rows, never its paint");
      if (scene.marktype !== "group") setRole(roleOf(scene));
      Marks[scene.marktype]!.draw.call(renderer, ctx, scene);
    },
  };
  renderer.draw(context, root);
  return items.filter((item) => item.kind === "path" || item.text !== "");
}
