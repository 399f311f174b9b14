import type { Measure, Weight } from "../text/measure.ts";
import type { DrawingItem, DrawingRole, PathCommand, Stroke } from "./drawing.ts";
import { roundPoint } from "./round-point.ts";

/** `a` to `f`: rotation, scale and shift, as Canvas keeps them: x' = a·x + c·y + e, y' = b·x + d·y + f. */
type State = {
  a: number;
  b: number;
  c: number;
  d: number;
  e: number;
  f: number;
  fillStyle: string;
  strokeStyle: string;
  globalAlpha: number;
  lineWidth: number;
  lineCap: "butt" | "round" | "square";
  lineJoin: "miter" | "round" | "bevel";
  dash: readonly number[];
  font: string;
  textAlign: string;
};

/** The part of Canvas2D that Vega's marks use, writing absolute paths and texts into `items`. */
export type Recorder = ReturnType<typeof recorder>;

/** Starts a recording whose origin lies at (x, y) of the drawing. Canvas transforms a point when the path is built: so do we. */
export function recorder(x: number, y: number, measure: Measure) {
  const items: DrawingItem[] = [];
  const stack: State[] = [];
  let role: DrawingRole = "shape";
  let path: PathCommand[] = [];
  /** The item that the current path was filled into, so that a stroke of it joins that item. */
  let filled: number | undefined;

  const state: State = {
    a: 1,
    b: 0,
    c: 0,
    d: 1,
    e: x,
    f: y,
    fillStyle: "#000000",
    strokeStyle: "#000000",
    globalAlpha: 1,
    lineWidth: 1,
    lineCap: "butt",
    lineJoin: "miter",
    dash: [],
    font: "",
    textAlign: "left",
  };
  // A chart has thousands of points: each is worked out without a pair to hold it.
  const toX = (px: number, py: number) => roundPoint(state.a * px + state.c * py + state.e);
  const toY = (px: number, py: number) => roundPoint(state.b * px + state.d * py + state.f);
  const add = (command: PathCommand) => {
    path.push(command);
    filled = undefined;
  };
  const strokeNow = (): Stroke => {
    if (state.globalAlpha < 1) throw new Error("a chart's strokes are opaque");
    const { strokeStyle: color, lineWidth: width, lineCap: cap, lineJoin: join, dash } = state;
    if (dash.length === 0 && cap === "butt" && join === "miter") return { color, width };
    return {
      color,
      width,
      ...(dash.length > 0 && { dash: [...dash] }),
      ...(cap !== "butt" && { cap }),
      ...(join !== "miter" && { join }),
    };
  };

  const context = Object.assign(state, {
    save: () => void stack.push({ ...state }),
    restore: () => void Object.assign(state, stack.pop()),
    translate(dx: number, dy: number) {
      const { a, b, c, d, e, f } = state;
      state.e = a * dx + c * dy + e;
      state.f = b * dx + d * dy + f;
    },
    rotate(angle: number) {
      const { a, b, c, d } = state;
      const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
      Object.assign(state, { a: a * cos + c * sin, b: b * cos + d * sin, c: c * cos - a * sin, d: d * cos - b * sin });
    },
    beginPath() {
      path = [];
      filled = undefined;
    },
    moveTo: (px: number, py: number) => add(["M", toX(px, py), toY(px, py)]),
    lineTo: (px: number, py: number) => add(["L", toX(px, py), toY(px, py)]),
    bezierCurveTo: (x1: number, y1: number, x2: number, y2: number, px: number, py: number) =>
      add(["C", toX(x1, y1), toY(x1, y1), toX(x2, y2), toY(x2, y2), toX(px, py), toY(px, py)]),
    closePath: () => add(["Z"]),
    rect(px: number, py: number, width: number, height: number) {
      context.moveTo(px, py);
      context.lineTo(px + width, py);
      context.lineTo(px + width, py + height);
      context.lineTo(px, py + height);
      context.closePath();
    },
    /** Whole circles only, as four cubics: a quarter's handles are 4/3 · tan(π/8) of the radius long. */
    arc(cx: number, cy: number, r: number, from: number, to: number) {
      if (Math.abs(to - from - 2 * Math.PI) > 1e-9) throw new Error("a chart's arcs are whole circles");
      const handle = (4 / 3) * Math.tan(Math.PI / 8);
      for (let quarter = 0; quarter < 4; quarter++) {
        const [c0, s0] = [Math.cos(from + (quarter * Math.PI) / 2), Math.sin(from + (quarter * Math.PI) / 2)];
        const [c1, s1] = [-s0, c0];
        context.bezierCurveTo(
          cx + r * (c0 - handle * s0),
          cy + r * (s0 + handle * c0),
          cx + r * (c1 + handle * s1),
          cy + r * (s1 - handle * c1),
          cx + r * c1,
          cy + r * s1,
        );
      }
      context.closePath();
    },
    setLineDash(dash: readonly number[]) {
      state.dash = dash;
    },
    fill() {
      if (state.fillStyle === "transparent") return;
      items.push({
        kind: "path",
        role,
        d: path,
        fill: state.fillStyle,
        ...(state.globalAlpha < 1 && { fillOpacity: state.globalAlpha }),
      });
      filled = items.length - 1;
    },
    stroke() {
      const before = filled === undefined ? undefined : items[filled];
      if (filled !== undefined && before?.kind === "path") items[filled] = { ...before, stroke: strokeNow() };
      else items.push({ kind: "path", role, d: path, stroke: strokeNow() });
    },
    fillText(text: string, px: number, py: number) {
      const [weight, size] = fontOf(state.font);
      const width = measure.width(text, weight, size);
      const shift = state.textAlign === "center" ? width / 2 : state.textAlign === "right" ? width : 0;
      const [left, baseline] = [toX(px - shift, py), toY(px - shift, py)];
      items.push({ kind: "text", role, text, x: left, y: baseline, size, weight, color: state.fillStyle });
    },
  });

  return {
    items,
    context,
    setRole(next: DrawingRole) {
      role = next;
    },
  };
}

/** Weight and size from Canvas' font string, such as "600 8.5px sans-serif". */
export function fontOf(font: string): readonly [Weight, number] {
  const match = /^(?:(normal|bold|\d+) )?([\d.]+)px/.exec(font);
  if (!match) throw new Error(`a chart's font is not one we set: ${font}`);
  const weight = match[1] === "600" ? "semibold" : match[1] === "bold" || match[1] === "700" ? "bold" : "regular";
  return [weight, Number(match[2])];
}
