import { spawnSync } from "node:child_process";
import { mkdirSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { PDFiumLibrary } from "@hyzyla/pdfium";
import { PDFParse } from "pdf-parse";
import { expect, test, vi } from "vitest";
import { scratch } from "../cli/run.ts";
import { demoSheets } from "./demo-sheets.ts";

const folder = scratch();

/** The files inside a demo sheet, with all that may be: a sheet of several heads has none of them. */
function carriedBy(name: string): readonly string[] {
  if (name.includes("_side-by-side_")) return [];
  return name.includes("_catalogue_") ? ["figures.json", "readings.csv"] : ["figures.json", "job.yaml", "readings.csv"];
}

test("PDFium opens and draws every page of every demo sheet, and reads its number", async () => {
  const library = await PDFiumLibrary.init();
  for (const { name, pdf } of await demoSheets()) {
    const document = await library.loadDocument(pdf);
    expect([name, document.getPageCount() > 0]).toEqual([name, true]);
    for (const page of document.pages()) {
      expect(page.getText()).toMatch(/\d+ of \d+/);
      const { data } = await page.render({ scale: 0.5, render: "bitmap" });
      expect([name, data.some((channel) => channel < 128)]).toEqual([name, true]);
    }
    document.destroy();
  }
  library.destroy();
});

test("pdf.js reads every demo sheet without a warning, and finds what is inside", async () => {
  const warnings = [vi.spyOn(console, "warn"), vi.spyOn(console, "log"), vi.spyOn(console, "error")];
  for (const { name, pdf } of await demoSheets()) {
    const parser = new PDFParse({ data: new Uint8Array(pdf), verbosity: 1 });
    const { text } = await parser.getText();
    expect(text).toMatch(/end of sheet|, end/i);
    const document = await (
      parser as unknown as { load(): Promise<{ getAttachments(): Promise<object | null> }> }
    ).load();
    const inside = Object.values((await document.getAttachments()) ?? {}) as { filename: string }[];
    expect([name, inside.map(({ filename }) => filename)]).toEqual([name, carriedBy(name)]);
    await parser.destroy();
  }
  expect(warnings.flatMap(({ mock }) => mock.calls)).toEqual([]);
});

test("poppler, qpdf, Ghostscript and MuPDF say nothing, and poppler takes the files out whole", async () => {
  const run = (tool: string, ...args: readonly string[]) => {
    const { status, stdout, stderr, error } = spawnSync(tool, args, { encoding: "utf8", maxBuffer: 1 << 28 });
    if (error) throw error;
    return { status, out: stdout, err: stderr };
  };
  for (const { name, pdf } of await demoSheets()) {
    const path = join(folder, name);
    writeFileSync(path, pdf);
    expect([name, run("qpdf", "--check", "--no-warn", path).status]).toEqual([name, 0]);
    for (const [tool, ...args] of [
      ["pdfinfo", "-struct-text", path],
      ["pdftotext", path, "-"],
      ["pdffonts", path],
      ["gs", "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=nullpage", path],
      ["mutool", "trace", path],
    ] as const) {
      const { status, err } = run(tool, ...args);
      expect([tool, name, status, err]).toEqual([tool, name, 0, ""]);
    }
    const out = join(folder, `${name}.inside`);
    mkdirSync(out);
    expect(run("pdfdetach", "-saveall", "-o", out, path)).toEqual({ status: 0, out: "", err: "" });
    expect(readdirSync(out).includes("readings.csv")).toBe(carriedBy(name).length > 0);
  }
});
