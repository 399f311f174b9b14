import type { BenchView, ChartPoint } from "../bench-messages.ts";

/** An element of the chart. */
function draw(tag: string, attributes: Readonly<Record<string, string | number>>, text = ""): SVGElement {
  const made = document.createElementNS("http://www.w3.org/2000/svg", tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, String(value));
  made.textContent = text;
  return made;
}

/** A round step that parts a length into at most `most`. */
function stepOf(length: number, most: number): number {
  const power = 10 ** Math.floor(Math.log10(length / most));
  return ([1, 2, 5, 10].find((one) => one * power * most >= length) ?? 10) * power;
}

/** Draws flow against lift: this stage solid and filled, the stage before dashed and open. */
export function drawChart(parent: HTMLElement, view: BenchView, goTo: (point: ChartPoint) => void): void {
  const [width, height] = [Math.max(300, parent.clientWidth), Math.max(120, parent.clientHeight)];
  const box = { left: 46, right: width - 14, top: 12, bottom: height - 34 };
  const points = [...view.now, ...(view.before?.points ?? [])];
  const most = { lift: Number(view.plan.lifts.at(-1) ?? 1), flow: Math.max(...points.map(({ flow }) => flow), 1) };
  const xStep = stepOf(most.lift, 6);
  const yStep = stepOf(most.flow, 4);
  const end = { x: Math.ceil(most.lift / xStep - 1e-9) * xStep, y: Math.ceil((most.flow * 1.05) / yStep) * yStep };
  const x = (lift: number) => box.left + (lift / end.x) * (box.right - box.left);
  const y = (flow: number) => box.bottom - (flow / end.y) * (box.bottom - box.top);
  const svg = draw("svg", { viewBox: `0 0 ${width} ${height}`, role: "group", "aria-label": chartWords(view) });
  for (let at = yStep; points.length > 0 && at <= end.y + 1e-9; at += yStep) {
    svg.append(draw("line", { class: "grid", x1: box.left, x2: box.right, y1: y(at), y2: y(at) }));
    svg.append(draw("text", { x: box.left - 6, y: y(at) + 5, "text-anchor": "end" }, shortNumber(at)));
  }
  svg.append(draw("line", { class: "axis", x1: box.left, x2: box.right, y1: box.bottom, y2: box.bottom }));
  for (let at = xStep; at <= end.x + 1e-9; at += xStep)
    svg.append(draw("text", { x: x(at), y: box.bottom + 22, "text-anchor": "middle" }, shortNumber(at)));
  svg.append(draw("text", { x: box.left - 6, y: box.bottom + 22, "text-anchor": "end" }, view.units.lift));
  const lineOf = (of: readonly ChartPoint[]) =>
    of
      .filter(({ kind }) => kind === "good")
      .map(({ lift, flow }) => `${x(lift).toFixed(1)},${y(flow).toFixed(1)}`)
      .join(" ");
  if (view.before) {
    svg.append(draw("polyline", { class: "before", points: lineOf(view.before.points) }));
    for (const one of view.before.points)
      svg.append(draw("circle", { class: "before", cx: x(one.lift), cy: y(one.flow), r: 4 }));
  }
  const rising = view.now.filter(({ lift }, at) => view.now.findIndex((one) => one.lift === lift) === at);
  svg.append(draw("polyline", { class: "now", points: lineOf(rising) }));
  for (const point of view.now) {
    if (point.kind === "off") svg.append(draw("circle", { class: "ring", cx: x(point.lift), cy: y(point.flow), r: 9 }));
    const marker = draw("circle", { class: `now ${point.kind}`, cx: x(point.lift), cy: y(point.flow), r: 5 });
    marker.addEventListener("click", () => goTo(point));
    svg.append(marker);
    if (point.kind === "noisy" || point.kind === "off")
      svg.append(
        draw(
          "text",
          { class: "mark", x: x(point.lift) + 12, y: y(point.flow) + 5 },
          point.kind === "off" ? shortNumber(point.flow) : "!",
        ),
      );
  }
  parent.replaceChildren(svg);
}

const shortNumber = (value: number) => String(Number(value.toPrecision(5)));

function chartWords({ side, units, now, before, stage }: BenchView): string {
  const words = `${now.length} ${side} readings of ${stage}, flow in ${units.flow} against lift in ${units.lift}`;
  return before ? `${words}; dashed: ${before.stage}` : words;
}
