import type { Measure, Weight } from "../text/measure.ts";
import { type DrawingItem, type DrawingRole, type PathCommand, roundPoint, type Stroke } from "./drawing.ts";

/**
 * The part of Canvas2D that Vega's marks use; records absolute paths and texts as drawing items. As in Canvas, a point is
 * transformed when the path is built. `a` to `f` are the transform: x' = a·x + c·y + e, y' = b·x + d·y + f.
 */
export class Recorder {
  a = 1;
  b = 0;
  c = 0;
  d = 1;
  e: number;
  f: number;
  fillStyle = "#000000";
  strokeStyle = "#000000";
  globalAlpha = 1;
  lineWidth = 1;
  lineCap: "butt" | "round" | "square" = "butt";
  lineJoin: "miter" | "round" | "bevel" = "miter";
  dash: readonly number[] = [];
  font = "";
  textAlign = "left";
  // Private fields are no part of the drawing state: the spread in save() leaves them out.
  readonly #measure: Measure;
  readonly #items: DrawingItem[] = [];
  readonly #stack: object[] = [];
  #role: DrawingRole = "shape";
  #path: PathCommand[] = [];
  /** Index of the item that the current path was filled into; a stroke of the same path joins that item. */
  #filled: number | undefined;

  /** The origin lies at (x, y) of the drawing. */
  constructor(x: number, y: number, measure: Measure) {
    [this.e, this.f, this.#measure] = [x, y, measure];
  }

  get items(): readonly DrawingItem[] {
    return this.#items;
  }
  /** The role of the items recorded from now on. */
  setRole(role: DrawingRole): void {
    this.#role = role;
  }

  save(): void {
    this.#stack.push({ ...this });
  }
  restore(): void {
    Object.assign(this, this.#stack.pop());
  }
  translate(dx: number, dy: number): void {
    this.e += this.a * dx + this.c * dy;
    this.f += this.b * dx + this.d * dy;
  }
  rotate(angle: number): void {
    const { a, b, c, d } = this;
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    Object.assign(this, { a: a * cos + c * sin, b: b * cos + d * sin, c: c * cos - a * sin, d: d * cos - b * sin });
  }
  // A chart has thousands of points: no pair is allocated for each.
  #x(x: number, y: number): number {
    return roundPoint(this.a * x + this.c * y + this.e);
  }
  #y(x: number, y: number): number {
    return roundPoint(this.b * x + this.d * y + this.f);
  }

  beginPath(): void {
    this.#path = [];
    this.#filled = undefined;
  }
  #add(command: PathCommand): void {
    this.#path.push(command);
    this.#filled = undefined;
  }
  moveTo(x: number, y: number): void {
    this.#add(["M", this.#x(x, y), this.#y(x, y)]);
  }
  lineTo(x: number, y: number): void {
    this.#add(["L", this.#x(x, y), this.#y(x, y)]);
  }
  bezierCurveTo(x1: number, y1: number, x2: number, y2: number, x: number, y: number): void {
    const [firstX, firstY, secondX, secondY] = [this.#x(x1, y1), this.#y(x1, y1), this.#x(x2, y2), this.#y(x2, y2)];
    this.#add(["C", firstX, firstY, secondX, secondY, this.#x(x, y), this.#y(x, y)]);
  }
  closePath(): void {
    this.#add(["Z"]);
  }
  rect(x: number, y: number, width: number, height: number): void {
    this.moveTo(x, y);
    this.lineTo(x + width, y);
    this.lineTo(x + width, y + height);
    this.lineTo(x, y + height);
    this.closePath();
  }
  /** Whole circles only, as four cubics whose handles are 4/3 · tan(π/8) of the radius long. */
  arc(cx: number, cy: number, r: number, from: number, to: number): void {
    if (Math.abs(to - from - 2 * Math.PI) > 1e-9) throw new Error("a chart's arcs are whole circles");
    const handle = (4 / 3) * Math.tan(Math.PI / 8);
    for (let quarter = 0; quarter < 4; quarter++) {
      const [c0, s0] = [Math.cos(from + (quarter * Math.PI) / 2), Math.sin(from + (quarter * Math.PI) / 2)];
      const [c1, s1] = [-s0, c0];
      this.bezierCurveTo(
        cx + r * (c0 - handle * s0),
        cy + r * (s0 + handle * c0),
        cx + r * (c1 + handle * s1),
        cy + r * (s1 - handle * c1),
        cx + r * c1,
        cy + r * s1,
      );
    }
    this.closePath();
  }

  setLineDash(dash: readonly number[]): void {
    this.dash = dash;
  }
  fill(): void {
    const { fillStyle: fill, globalAlpha: fillOpacity } = this;
    if (fill === "transparent") return;
    const opacity = fillOpacity < 1 && { fillOpacity };
    this.#items.push({ kind: "path", role: this.#role, d: this.#path, fill, ...opacity });
    this.#filled = this.#items.length - 1;
  }
  stroke(): void {
    const filled = this.#filled === undefined ? undefined : this.#items[this.#filled];
    if (this.#filled !== undefined && filled?.kind === "path")
      this.#items[this.#filled] = { ...filled, stroke: this.#stroke() };
    else this.#items.push({ kind: "path", role: this.#role, d: this.#path, stroke: this.#stroke() });
  }
  #stroke(): Stroke {
    if (this.globalAlpha < 1) throw new Error("a chart's strokes are opaque");
    const { strokeStyle: color, lineWidth: width, lineCap: cap, lineJoin: join, dash } = this;
    return {
      color,
      width,
      ...(dash.length > 0 && { dash: [...dash] }),
      ...(cap !== "butt" && { cap }),
      ...(join !== "miter" && { join }),
    };
  }
  fillText(text: string, px: number, py: number): void {
    const [weight, size] = parseFont(this.font);
    const width = this.#measure.width(text, weight, size);
    const shift = this.textAlign === "center" ? width / 2 : this.textAlign === "right" ? width : 0;
    const [x, y] = [this.#x(px - shift, py), this.#y(px - shift, py)];
    this.#items.push({ kind: "text", role: this.#role, text, x, y, size, weight, color: this.fillStyle });
  }
}

/** Weight and size of a Canvas font string, such as "600 8.5px sans-serif". */
export function parseFont(font: string): readonly [Weight, number] {
  const match = /^(?:(normal|bold|\d+) )?([\d.]+)px/.exec(font);
  if (!match) throw new Error(`a chart's font is not one we set: ${font}`);
  const weight = match[1] === "600" ? "semibold" : match[1] === "500" ? "medium" : "regular";
  return [weight, Number(match[2])];
}
