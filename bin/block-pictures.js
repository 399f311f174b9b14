// Writes templates/pictures/blocks/*.png and templates/README.md: each block alone, from the first demo job in which it is not
// empty. Run it after `npm run build` whenever a block is new or changed.
import { mkdirSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { fromSource } from "./from-source.js";

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const { BLOCKS, boundingBox, buildSheet, disk, encodeGreyPng, imageSizes, layOut, ...rest } = await fromSource(
  "sheet/blocks",
  "sheet/build-sheet",
  "pipeline/evaluate",
  "pipeline/lay-out",
  "theme/make-theme",
  "pdf/pictures",
  "pdf/paint",
  "pdf/paint-item",
  "pdf/font/fonts",
  "charts/scenegraph",
  "io/disk",
  "raster/page-renderer",
  "raster/encode-png",
);
/** Blocks made for a page of one column. */
const ON_PHONE = ["main-panel", "other-panel"];
const { makeTheme, openFonts, openShapes, rasterizePages, paintPdf, parseShapes, evaluateJob } = rest;

const DPI = 80;
/** Paper around the block [pt]. */
const EDGE = 6;
/** Jobs to try in this order; the first in which the block is not empty shows it. */
const JOBS = [
  "alder-lane/2026-014",
  "alder-lane/2026-040",
  "fennick/f-231",
  "alder-lane/2026-031",
  "fennick/f-251",
  "fennick/fd-16",
  "fennick/f-207",
  "fennick/f-260",
  "alder-lane/2026-054",
];
/** Exceptions: another job where the first shows too little, fewer columns where the full width would be mostly empty. */
const SHOWN = {
  "other-heads": { job: "alder-lane/2026-040" },
  remarks: { span: 3 },
  photos: { span: 3 },
  outline: { span: 3 },
  "intake-sizes": { span: 3 },
  "exhaust-sizes": { span: 3 },
  "found-readings": { span: 3 },
  "found-sizes": { span: 3 },
  warranty: { span: 3 },
  springs: { span: 3 },
  compression: { span: 3 },
  "set-up": { span: 3 },
  "deck-fit": { span: 3 },
  method: { span: 3 },
  confidence: { span: 3 },
  customer: { span: 3 },
  head: { span: 3 },
  engine: { span: 3 },
  parts: { span: 3 },
  "not-done": { span: 3 },
  "valve-job": { span: 4 },
  "sample-sizes": { span: 3 },
  product: { span: 4 },
  "next-steps": { span: 3 },
  "how-to-read": { span: 3 },
};

const fonts = openFonts();
const shapes = openShapes(parseShapes(disk.readTextFile(join(root, "dist", "charts", "shapes.json"))));
const jobs = new Map();
const folder = join(root, "templates", "pictures", "blocks");
mkdirSync(folder, { recursive: true });
for (const file of readdirSync(folder)) rmSync(join(folder, file));

const rows = [];
for (const [name, { about, priority, split }] of Object.entries(BLOCKS)) {
  const { job, span = 6 } = SHOWN[name] ?? {};
  const shown = (job ? [job] : JOBS)
    .map((one) => ({ job: one, ...blockOf(one, { block: name, from: 0, span }) }))
    .find(({ parts }) => parts);
  if (shown === undefined) throw new Error(`no demo job has anything to say in ${name}`);
  writeFileSync(join(folder, `${name}.png`), await pictureOf(shown));
  const tall = blockOf(shown.job, { block: name, from: 0, span, height: 60 }).parts;
  const height = JSON.stringify(tall) === JSON.stringify(shown.parts) ? "–" : "yes";
  const heading = shown.parts[0].kind === "heading" ? shown.parts[0].text : "–";
  const from = shown.job.split("/").at(-1);
  rows.push(
    `| \`${name}\` | ${about} | ${priority} | ${split ? "yes" : "no"} | ${height} | ${heading} | <img src="pictures/blocks/${name}.png" width="420" alt="${name}, as in ${from}"> |`,
  );
}
writeFileSync(join(root, "templates", "README.md"), readme(rows));

function evaluate(job) {
  if (!jobs.has(job)) jobs.set(job, evaluateJob(join(root, "jobs", `${job}.yaml`), {}, disk).drawable);
  return jobs.get(job);
}

/** A sheet of that block alone and its parts, undefined if empty; some blocks are empty on page 1. */
function blockOf(job, cell) {
  const first = blockOn(job, [{ cells: [cell], newPage: false }], cell.block);
  const title = { cells: [{ block: "title", from: 0, span: 6 }], newPage: false };
  return first.parts ? first : blockOn(job, [title, { cells: [cell], newPage: true }], cell.block);
}

function blockOn(job, rows, name) {
  const { model, figures } = evaluate(job);
  const { theme } = makeTheme({ accent: model.shop.accent, paper: ON_PHONE.includes(name) ? "phone" : "A4" });
  const template = { name: "one-block", onePage: false, rows };
  const { sheet } = buildSheet({ model, figures, template, theme });
  return {
    sheet,
    name,
    parts: sheet.rows.flatMap(({ cells }) => cells).find(({ block }) => block.name === name)?.block.parts,
  };
}

async function pictureOf({ sheet, name, job }) {
  const { project, model } = evaluate(job);
  const images = new Map([...project.images, ...(project.logo ? [[model.shop.logo, project.logo]] : [])]);
  const { pages } = layOut(sheet, imageSizes(images), { fonts, shapes });
  const items = pages.map((page) => page.items.filter(({ block }) => block === name)).find(({ length }) => length > 0);
  const boxes = items.map(boundingBox);
  const [left, top] = [0, 1].map((i) => Math.min(...boxes.map((box) => box[i])) - EDGE);
  const [right, bottom] = [2, 3].map((i) => Math.max(...boxes.map((box) => box[i])) + EDGE);
  const page = { width: right - left, height: bottom - top, items: items.map((item) => moved(item, left, top)) };
  const meta = { title: name, subject: name, language: "en", issued: model.identity.issued, producer: "headsheet" };
  const [pixels] = await rasterizePages(await paintPdf([page], { fonts, images, meta }), DPI / 72);
  return encodeGreyPng(pixels);
}

function moved(item, dx, dy) {
  return item.kind === "rule"
    ? { ...item, x1: item.x1 - dx, x2: item.x2 - dx, y1: item.y1 - dy, y2: item.y2 - dy }
    : { ...item, x: item.x - dx, y: item.y - dy };
}

function readme(table) {
  return `# Templates and their blocks

A template is rows of named blocks from top to bottom. Copy one of the files here into a folder \`templates/\` beside your \`shop.yaml\`,
rearrange it, and name your copy under \`sheet:\` in a job. A block with nothing to say takes no room, and its neighbours in the row take over
its columns. The cautions can be placed, not left out.

| option | means |
|---|---|
| \`span\` | columns of the page's six; none said: equal shares of what the others leave |
| \`height\` | of the charts, drawings or pictures in it, in points (72 an inch); where the table below says yes |
| \`priority\` | with \`one_page: true\`, what does not fit is left out, lowest first; 100 always stays |
| \`split\` | \`true\`: may be divided between pages |
| \`title\` | your heading in place of the usual one; where the table names one |
| \`grow\` | \`[118, 160]\`: least and most height of its charts in points, in place of \`height\`; they take what their page has left |
| \`optional\` | \`true\`: only where it needs no further page |
| \`gives\` | where its page is over-full it is left out, the lowest number first |
| \`goes_on\`, \`overleaf\` | where that is not enough: its end, or (lowest number first) its whole row, goes to the head of the next page |
| \`with\`, \`without\` | only where the block named stands on the sheet, or does not |

A row with \`new_page: true\` begins a page; with \`pull_up: true\` it stands on the page before where that has room.

The pictures are from the demo jobs, in grey. \`node bin/block-pictures.js\` writes them and this page anew.

| block | shows | priority | split | height | heading | |
|---|---|---|---|---|---|---|
${table.join("\n")}
`;
}
