// Draws every page of every demo sheet into out/gallery/, with an index.html to look at them side by side. `npm run build` first.
import { mkdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { fromSource } from "./from-source.js";

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const { renderSheet, templatesOf, evaluateJob, openFonts, openShapes, parseShapes, ...rest } = await fromSource(
  "pipeline/render-sheet",
  "pipeline/evaluate",
  "pipeline/file-name",
  "pdf/font/fonts",
  "charts/scenegraph",
  "io/disk",
  "project/list-jobs",
  "project/load-cache",
  "raster/fit-photo",
  "raster/page-renderer",
);
const { createDownscale, createLoadCache, disk, listJobs, pageImages } = rest;

const DPI = 100;
const folder = join(root, "out", "gallery");
const resources = {
  io: disk,
  fonts: openFonts(),
  shapes: openShapes(parseShapes(disk.readTextFile(join(root, "dist", "charts", "shapes.json")))),
  downscale: createDownscale(),
  templates: join(root, "templates"),
  cache: createLoadCache(),
  version: JSON.parse(disk.readTextFile(join(root, "package.json"))).version,
};

rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
const sheets = [];
for (const path of listJobs(join(root, "jobs"), disk)) {
  const { drawable } = evaluateJob(path, {}, disk);
  if (!drawable) throw new Error(`${path} is refused: see headsheet check`);
  for (const template of templatesOf(drawable.project, {})) {
    const { name, pdf } = await renderSheet(drawable, template, {}, resources);
    if (!pdf) throw new Error(`${path} could not be made as ${template}: see headsheet make`);
    const pages = await pageImages(pdf, DPI);
    const files = pages.map((_, i) => name.replace(/\.pdf$/, `_${i + 1}.png`));
    pages.forEach((page, i) => {
      writeFileSync(join(folder, files[i]), page);
    });
    writeFileSync(join(folder, name), pdf);
    const { identity, shop } = drawable.model;
    sheets.push({ name, template, files, title: identity.title, number: identity.number, shop: shop.name ?? "" });
  }
}
writeFileSync(join(folder, "index.html"), page(sheets));
const count = sheets.reduce((sum, { files }) => sum + files.length, 0);
process.stdout.write(`${join("out", "gallery", "index.html")}\n`);
process.stderr.write(`${count} pages of ${sheets.length} sheets\n`);

function escaped(text) {
  return text.replace(/[&<>"]/g, (letter) => `&#${letter.charCodeAt(0)};`);
}

function page(all) {
  const templates = [...new Set(all.map(({ template }) => template))];
  const jump = templates.map((name) => `<a href="#${escaped(name)}">${escaped(name)}</a>`).join(" ");
  return `<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Demo sheets, page by page</title>
<style>
  :root { color-scheme: light dark; --paper: #eceeef; --ink: #1b1f23; --quiet: #51575d; --line: #c3c8cc; }
  @media (prefers-color-scheme: dark) { :root { --paper: #1d2124; --ink: #eceeef; --quiet: #a9b0b6; --line: #3a4046; } }
  body { margin: 0 auto; max-width: 1500px; padding: 2rem clamp(1rem, 4vw, 3rem); background: var(--paper); color: var(--ink);
    font: 16px/1.5 "IBM Plex Sans", system-ui, sans-serif; }
  h1 { font-size: 1.5rem; margin: 0; }
  header p, h3 span, figcaption { color: var(--quiet); }
  nav a { margin-right: 1rem; }
  a { color: inherit; }
  h2 { font-size: 1.15rem; margin: 3rem 0 0; padding-bottom: .3rem; border-bottom: 1px solid var(--line); }
  h3 { font-size: 1rem; margin: 1.5rem 0 .6rem; }
  h3 span { font-weight: 400; }
  .pages { display: grid; grid-template-columns: repeat(auto-fill, minmax(260px, 1fr)); gap: 1.2rem; }
  figure { margin: 0; }
  img { display: block; width: 100%; height: auto; background: #fff; box-shadow: 0 1px 4px #0003; }
  figcaption { font-size: .85rem; margin-top: .35rem; }
</style>
<header>
  <h1>Demo sheets, page by page</h1>
  <p>${all.length} sheets of invented heads, ${DPI} dots an inch. Click a page for its full size.</p>
  <nav>${jump}</nav>
</header>
${templates
  .map(
    (name) =>
      `<h2 id="${escaped(name)}">${escaped(name)}</h2>\n${all
        .filter(({ template }) => template === name)
        .map(sheet)
        .join("\n")}`,
  )
  .join("\n")}
</html>
`;
}

function sheet({ name, files, title, number, shop, template }) {
  const figures = files.map(
    (file, i) =>
      `<figure><a href="${escaped(file)}"><img loading="lazy" src="${escaped(file)}" alt="${escaped(`${number}, ${template}, page ${i + 1}`)}"></a><figcaption>page ${i + 1} of ${files.length}</figcaption></figure>`,
  );
  return `<section>
<h3>${escaped(number)} · ${escaped(title)} <span>${escaped(shop)} · <a href="${escaped(name)}">PDF</a></span></h3>
<div class="pages">${figures.join("")}</div>
</section>`;
}
