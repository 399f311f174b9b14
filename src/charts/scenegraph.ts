import * as vega from "vega";
import type { Measure } from "../text/measure.ts";
import type { DrawingItem, DrawingRole } from "./drawing.ts";
import { type Recorder, recorder } from "./recorder.ts";
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
  readonly role?: string;
  readonly name?: string;
  readonly clip?: unknown;
  readonly items: { readonly datum?: { readonly index?: number } }[];
};
type Renderer = { readonly draw: (context: Recorder["context"], scene: Scene) => void };
type TextStyle = { readonly fontSize?: number; readonly limit?: number };
type Scenegraph = {
  readonly Marks: Readonly<
    Record<string, { readonly draw: (this: Renderer, context: Recorder["context"], scene: Scene) => void }>
  >;
  readonly textMetrics: { width: (item: TextStyle, text: string) => number };
};
const { Marks, textMetrics } = vega as unknown as Scenegraph;

/** Nothing a chart names is ever fetched. */
function loaderOf(fault: (message: string) => void): vega.Loader {
  const refuse = (name: string) => {
    fault(`a chart loads nothing: ${name}`);
    return Promise.reject(new Error("a chart loads nothing"));
  };
  return { load: refuse, sanitize: refuse, http: refuse, file: refuse } as unknown as vega.Loader;
}

/** What an axis' part is, by Vega's name for it; what a layer draws, by how our name for it begins. */
const PARTS: Readonly<Record<string, DrawingRole>> = { "axis-grid": "grid", "axis-tick": "axis", "axis-label": "axis" };
const LAYERS: Readonly<Record<string, DrawingRole>> = {
  curve: "curve",
  reading: "reading",
  error: "error-bar",
  band: "band",
  bar: "bar",
  axis: "axis",
  shape: "shape",
};

function roleOf({ role = "", name = "" }: Scene): DrawingRole {
  const layer = Object.keys(LAYERS).find((start) => name.startsWith(start));
  const found = PARTS[role] ?? (layer === undefined ? undefined : LAYERS[layer]);
  if (!found) throw new Error(`a chart draws something without a role: ${role} ${name}`);
  return found;
}

/**
 * Fills a shape and lets Vega's own marks draw it into items, the panel's corner at (plot.x, plot.y). One synchronous
 * block, because Vega's text metrics belong to the whole process: they are ours for its duration and restored after it.
 */
export function drawShape(shape: RuntimeShape, fill: Fill, plot: Box, measure: Measure): readonly DrawingItem[] {
  const metrics = textMetrics.width;
  textMetrics.width = ({ fontSize = 11, limit = 0 }, text) => {
    const width = measure.width(String(text ?? ""), "regular", fontSize);
    return limit > 0 ? Math.min(width, limit) : width;
  };
  const { view, faults } = viewOf(shape, fill);
  try {
    view.signal("width", plot.width).signal("height", plot.height);
    for (const [name, value] of Object.entries(fill.signals)) view.signal(name, value);
    // Vega marks the rows it takes in: it gets copies.
    for (const [name, rows] of Object.entries(fill.rows))
      view.data(
        name,
        rows.map((row) => ({ ...row })),
      );
    view.run();
    if (faults[0] !== undefined) throw new Error(faults[0]);
    return record((view.scenegraph() as unknown as { root: Scene }).root, plot, measure);
  } catch (error) {
    // What went wrong once may have left anything behind.
    views.delete(shape);
    throw error;
  } finally {
    textMetrics.width = metrics;
  }
}

/** What Vega makes of a shape. `filled`: the names of all that fills it, for what is not filled anew would stay. */
type ReadyView = { readonly view: vega.View; readonly faults: string[]; readonly filled: string };

/** Building a view takes longer than running it: each shape has one, filled again for every chart. */
const views = new WeakMap<RuntimeShape, ReadyView>();

function viewOf(shape: RuntimeShape, { rows, signals }: Fill): ReadyView {
  const filled = [...Object.keys(rows), "|", ...Object.keys(signals)].join(",");
  const known = views.get(shape);
  if (known?.filled === filled) return known;
  // Vega runs in a promise of its own, where an error thrown would be lost, or end the program later: faults are kept.
  const faults: string[] = [];
  const fault = (message: string) => faults.push(message);
  const view = new vega.View(shape as unknown as vega.Runtime, {
    logger: loggerOf(fault),
    loader: loaderOf(fault),
    renderer: "none",
  });
  const ready = { view, faults, filled };
  views.set(shape, ready);
  return ready;
}

function record(root: Scene, plot: Box, measure: Measure): readonly DrawingItem[] {
  const { items, context, setRole } = recorder(plot.x, plot.y, measure);
  const renderer: Renderer = {
    draw(ctx, scene) {
      if (scene.clip) throw new Error("a chart clips its rows, never its paint");
      if (scene.marktype !== "group") setRole(roleOf(scene));
      // A view filled again keeps the ticks it had and adds the others behind them.
      if (scene.role && scene.role in PARTS) scene.items.sort((a, b) => (a.datum?.index ?? 0) - (b.datum?.index ?? 0));
      Marks[scene.marktype]!.draw.call(renderer, ctx, scene);
    },
  };
  renderer.draw(context, root);
  return items.filter((item) => item.kind === "path" || item.text !== "");
}
