import * as vega from "vega";
import type { Measure } from "../text/measure.ts";
import type { DrawingItem, DrawingRole } from "./drawing.ts";
import { type Recorder, recorder } from "./recorder.ts";
import { PLACE } from "./shape-parts.ts";
import type { RuntimeShape } from "./shapes.ts";
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
export function drawShape(shape: RuntimeShape, fill: Fill, plot: Box, measure: Measure): readonly DrawingItem[] {
  const { view, faults, counts } = viewOf(shape, fill);
  try {
    view.signal("width", plot.width).signal("height", plot.height);
    for (const [name, value] of Object.entries(fill.signals)) view.signal(name, value);
    for (const [name, rows] of Object.entries(fill.rows)) {
      if (rows.length === 0 && counts.get(name) === 0) continue;
      counts.set(name, rows.length);
      rows.forEach((row, place) => void Object.assign(row, { [PLACE]: place }));
      view.data(name, rows as object[]);
    }
    view.run();
    if (faults[0] !== undefined) throw new Error(faults[0]);
    return record((view.scenegraph() as unknown as { root: Scene }).root, plot, measure);
  } catch (error) {
    // What went wrong once may have left anything behind.
    views.delete(shape);
    throw error;
  }
}

/** What Vega makes of a shape. `filled`: the names of all that fills it, for what is not filled anew would stay. */
type ReadyView = {
  readonly view: vega.View;
  readonly faults: string[];
  readonly filled: ReadonlySet<string>;
  /** How many rows each layer was filled with. */
  readonly counts: Map<string, number>;
};

/** Building a view takes longer than running it: each shape has one, filled again for every chart. */
const views = new WeakMap<RuntimeShape, ReadyView>();

function viewOf(shape: RuntimeShape, { rows, signals }: Fill): ReadyView {
  const names = [...Object.keys(rows), ...Object.keys(signals)];
  const known = views.get(shape);
  if (known && names.length === known.filled.size && names.every((name) => known.filled.has(name))) return known;
  // Vega runs in a promise of its own, where an error thrown would be lost, or end the program later: faults are kept.
  const faults: string[] = [];
  const fault = (message: string) => faults.push(message);
  const view = new vega.View(shape as unknown as vega.Runtime, {
    logger: loggerOf(fault),
    loader: loaderOf(fault),
    renderer: "none",
  });
  const ready = { view, faults, filled: new Set(names), counts: new Map<string, number>() };
  views.set(shape, ready);
  return ready;
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
