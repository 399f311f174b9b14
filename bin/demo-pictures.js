// Draws the pictures of the demo jobs: a chamber and a port as an illustrator would, of no head that exists.
import { writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import PDFDocument from "pdfkit";
import { fromSource } from "./from-source.js";

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const { rasterizePages } = await fromSource("raster/page-renderer");
const { encode } = await import("jpeg-js");

const WIDTH = 240;
const HEIGHT = 180;

await draw("jobs/alder-lane/photos/chamber.jpg", chamber);
await draw("jobs/alder-lane/photos/chamber-before.jpg", (doc) => worn(doc, chamber));
await draw("jobs/alder-lane/photos/intake-port.jpg", port);
await draw("jobs/alder-lane/photos/intake-port-before.jpg", (doc) => worn(doc, port));
await draw("jobs/fennick/photos/fd-16.jpg", fourValves, 72);

async function draw(file, paint, quality = 75) {
  const doc = new PDFDocument({ autoFirstPage: false });
  doc.addPage({ size: [WIDTH, HEIGHT], margin: 0 });
  paint(doc);
  const chunks = [];
  doc.on("data", (chunk) => chunks.push(chunk));
  await new Promise((resolve) => doc.on("end", resolve).end());
  const [pixels] = await rasterizePages(Buffer.concat(chunks), 1020 / WIDTH);
  writeFileSync(join(root, file), encode(pixels, quality).data);
}

/** Light from the top left, as on every surface here. */
function shade(doc, [x1, y1, x2, y2], ...colours) {
  const gradient = doc.linearGradient(x1, y1, x2, y2);
  for (const [i, colour] of colours.entries()) gradient.stop(i / (colours.length - 1), colour);
  return gradient;
}

function deck(doc) {
  doc.rect(0, 0, WIDTH, HEIGHT).fill(shade(doc, [0, 0, WIDTH, HEIGHT], "#e3e5e6", "#c3c7ca", "#aeb3b7"));
  // The cutter's marks on the deck.
  doc.lineWidth(0.25).strokeColor("#9da3a8").strokeOpacity(0.35);
  for (let r = 60; r < 420; r += 4.5) doc.circle(-70, 260, r).stroke();
  doc.strokeOpacity(1);
  for (const [x, y] of [
    [16, 18],
    [224, 18],
    [16, 162],
    [224, 162],
  ])
    hole(doc, x, y, 8);
  hole(doc, 120, 12, 5);
  hole(doc, 120, 168, 5);
}

function hole(doc, x, y, r) {
  doc.circle(x, y, r).fill(shade(doc, [x - r, y - r, x + r, y + r], "#3d4347", "#7c8388"));
  doc.lineWidth(0.7).circle(x, y, r).stroke("#6a7176");
}

function chamber(doc) {
  deck(doc);
  const outline = () =>
    doc
      .moveTo(38, 92)
      .bezierCurveTo(38, 46, 74, 26, 120, 27)
      .bezierCurveTo(170, 26, 204, 52, 203, 92)
      .bezierCurveTo(204, 130, 166, 153, 122, 152)
      .bezierCurveTo(72, 154, 38, 132, 38, 92)
      .closePath();
  outline().fill(shade(doc, [50, 30, 190, 150], "#7e868b", "#a4abaf", "#ced2d4"));
  outline().lineWidth(1.4).stroke("#5d6469");
  valve(doc, 88, 90, 37);
  valve(doc, 161, 92, 31);
  plug(doc, 126, 128);
}

/** The same view as it came in: soot over all of it, and spots of carbon, each run in the same places. */
function worn(doc, paint) {
  paint(doc);
  doc.rect(0, 0, WIDTH, HEIGHT).fillOpacity(0.52).fill("#6b5f52").fillOpacity(1);
  let seed = 20260223;
  const next = () => {
    seed = (seed * 1664525 + 1013904223) % 4294967296;
    return seed / 4294967296;
  };
  for (let i = 0; i < 260; i++) {
    const r = 0.4 + 2.6 * next() ** 3;
    doc
      .circle(WIDTH * next(), HEIGHT * next(), r)
      .fillOpacity(0.18 + 0.4 * next())
      .fill("#2f2a25");
  }
  doc.fillOpacity(1);
}

/** A chamber with two valves a side and the plug between them. */
function fourValves(doc) {
  deck(doc);
  const outline = () =>
    doc
      .moveTo(36, 90)
      .bezierCurveTo(36, 44, 72, 16, 120, 16)
      .bezierCurveTo(168, 16, 204, 44, 204, 90)
      .bezierCurveTo(204, 136, 168, 164, 120, 164)
      .bezierCurveTo(72, 164, 36, 136, 36, 90)
      .closePath();
  outline().fill(shade(doc, [50, 20, 190, 160], "#7e868b", "#a4abaf", "#ced2d4"));
  outline().lineWidth(1.4).stroke("#5d6469");
  valve(doc, 84, 60, 28);
  valve(doc, 156, 60, 28);
  valve(doc, 88, 124, 24);
  valve(doc, 152, 124, 24);
  plug(doc, 120, 94);
}

function valve(doc, x, y, r) {
  doc
    .circle(x + 1.5, y + 1.8, r + 2.5)
    .fillOpacity(0.35)
    .fill("#3f464b")
    .fillOpacity(1);
  doc.circle(x, y, r + 2).fill(shade(doc, [x - r, y - r, x + r, y + r], "#6f777c", "#dfe2e4"));
  doc.circle(x, y, r).fill(shade(doc, [x - r, y - r, x + r, y + r], "#f1f3f4", "#bfc5c9", "#8d959b"));
  doc
    .lineWidth(0.6)
    .circle(x, y, r - 2.5)
    .stroke("#858d93");
  doc.lineWidth(0.3).strokeOpacity(0.4);
  for (let ring = 6; ring < r - 4; ring += 3) doc.circle(x, y, ring).stroke("#7d858b");
  doc.strokeOpacity(1);
  doc.circle(x, y, 1.6).fill("#6a7176");
}

function plug(doc, x, y) {
  doc.circle(x, y, 10).fill(shade(doc, [x - 10, y - 10, x + 10, y + 10], "#33393d", "#838a8f"));
  doc.lineWidth(0.5);
  for (let r = 9; r > 4; r -= 1.6) doc.circle(x, y, r).stroke("#9aa1a6");
  doc.circle(x, y, 3.5).fill("#2b3034");
}

function port(doc) {
  doc.rect(0, 0, WIDTH, HEIGHT).fill(shade(doc, [0, 0, WIDTH, HEIGHT], "#d9dcde", "#b9bec1"));
  doc.lineWidth(0.25).strokeColor("#99a0a5").strokeOpacity(0.4);
  for (let y = 3; y < HEIGHT; y += 3.4)
    doc
      .moveTo(0, y)
      .lineTo(WIDTH, y + 7)
      .stroke();
  doc.strokeOpacity(1);
  hole(doc, 26, 90, 9);
  hole(doc, 214, 90, 9);
  // Walls that go away from the eye, a little smaller and darker each.
  const steps = 26;
  for (let i = 0; i <= steps; i++) {
    const t = i / steps;
    const light = Math.round(196 - 150 * t);
    const [w, h] = [118 - 56 * t, 138 - 62 * t];
    const colour = `#${[light, light + 3, light + 6].map((one) => one.toString(16).padStart(2, "0")).join("")}`;
    doc.roundedRect(120 - w / 2 + 7 * t, 90 - h / 2 - 12 * t, w, h, 22 - 6 * t).fill(colour);
  }
  // The stem, and the guide's boss above it.
  doc.roundedRect(118, 44, 18, 26, 8).fill(shade(doc, [116, 44, 138, 60], "#8d959b", "#555c61"));
  doc.rect(124, 66, 6, 46).fill(shade(doc, [124, 66, 130, 66], "#eceeef", "#9aa1a6", "#6c7479"));
  doc.lineWidth(1.2).roundedRect(61, 21, 118, 138, 22).stroke("#5d6469");
}
