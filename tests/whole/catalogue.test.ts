import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { overlayIo } from "../../src/io/overlay-io.ts";
import { imageSizes } from "../../src/pdf/pictures.ts";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { layOut } from "../../src/pipeline/lay-out.ts";
import { picturesOf, sheetContent } from "../../src/pipeline/render-sheet.ts";
import { demo, kit } from "./demo.ts";

const path = demo("fennick/fd-16.yaml");
const page = readFileSync(path, "utf8");

/** The demo's page compiled from the first so many of its heads, laid out. */
function layOutPage(samples: number, paper: "A4" | "Letter" = "A4", change = (text: string) => text) {
  const names = ["f-301", "f-302", "f-303", "f-304"].slice(0, samples).map((name) => `${name}.yaml`);
  const text = change(page.replace(/^samples: .*$/m, `samples: [ ${names.join(", ")} ]`));
  const io = overlayIo(kit.io, path, text);
  const resources = { ...kit, io };
  const { drawable, diagnostics } = evaluateJob(path, {}, io);
  if (!drawable) throw new Error(JSON.stringify(diagnostics));
  const { sheet } = sheetContent(drawable, "catalogue", { paper }, resources);
  const laid = layOut(sheet!, imageSizes(picturesOf(drawable.project, drawable.model)), resources);
  const texts = laid.pages.flatMap(({ items }) =>
    items.flatMap((item) =>
      item.kind === "text"
        ? item.text
        : item.kind === "drawing"
          ? item.drawing.items.flatMap((one) => (one.kind === "text" ? one.text : []))
          : [],
    ),
  );
  return { ...laid, sheet: sheet!, figures: drawable.figures, words: texts.join(" ").replaceAll("\u00a0", " ") };
}

test.each([1, 2, 3, 4])("a page of %i heads is one full page that claims no more than it may", (n) => {
  for (const paper of ["A4", "Letter"] as const) {
    const { pages, fills, diagnostics, words } = layOutPage(n, paper);
    expect([paper, diagnostics.map(({ message }) => message)]).toEqual([paper, []]);
    expect(pages).toHaveLength(1);
    expect(fills[0]!.share).toBeGreaterThanOrEqual(0.94);
    expect(/\btypical\b/i.test(words)).toBe(n >= 3);
    expect(words.includes("range")).toBe(n > 1);
    expect(words.includes("against that mean")).toBe(n >= 3);
    expect(words).toContain(n === 1 ? "Measured on 1 head" : `Measured on ${n} heads`);
    expect(words).toContain("Included");
    expect(words).toContain("Not included");
    expect(words).toContain("Price on request");
  }
});

test("a page names no customer, ticket, reference or stamp of its heads, nor which of them is which", () => {
  const { words, figures, sheet } = layOutPage(4);
  const all = `${words} ${JSON.stringify(sheet)}`;
  for (const name of ["f-301", "f-302", "f-303", "f-304"]) {
    const job = readFileSync(demo(`fennick/${name}.yaml`), "utf8");
    const told = [/customer: \{ name: ([^,}]+)/, /stamped: "?([^,}"]+)/, /reference: "?([^,}"]+)/].flatMap(
      (find) => find.exec(job)?.[1]?.trim() ?? [],
    );
    expect(told.length).toBeGreaterThan(1);
    for (const secret of [name, name.toUpperCase(), ...told]) expect(all).not.toContain(secret);
  }
  for (const side of ["intake", "exhaust"] as const)
    for (const { flows_m3_s: flows } of figures.sample![side]!.readings)
      expect(flows).toEqual([...flows].sort((a, b) => a - b));
});

test("every head is a dot about the mean, in the zone of one reading's ±", () => {
  const { sheet, figures } = layOutPage(4);
  const charts = sheet.rows.flatMap(({ cells }) =>
    cells.flatMap(({ block }) => block.parts.flatMap((part) => (part.kind === "charts" ? part.charts : []))),
  );
  const spread = charts.map(({ chart }) => chart).find(({ kind }) => kind === "spread");
  if (spread?.kind !== "spread") throw new Error("no spread");
  expect(
    spread.groups.map(({ name, rows }) => [name, ...rows.map(({ label }) => label.replaceAll("\u00a0", " "))]),
  ).toEqual([
    ["Intake", "3.0 mm", "6.0 mm", "8.0 mm"],
    ["Exhaust", "3.0 mm", "5.0 mm", "7.0 mm"],
  ]);
  for (const { rows } of spread.groups)
    for (const { dots } of rows) {
      expect(dots).toHaveLength(4);
      expect(dots.reduce((sum, dot) => sum + dot, 0)).toBeCloseTo(0, 9);
      expect(Math.max(...dots.map(Math.abs))).toBeLessThanOrEqual(spread.reach);
    }
  const high = figures.sample!.intake!.readings.find(({ lift_m: lift }) => Math.abs(lift - 0.008) < 1e-9)!;
  expect(high.flows_m3_s.map((flow) => Math.round(flow * 1e4) / 10)).toHaveLength(4);
  expect(high.mean_m3_s).toBeCloseTo(high.flows_m3_s.reduce((sum, flow) => sum + flow, 0) / 4, 12);
});

test("what all heads share of seats and springs stands there, unless the shop holds it back", () => {
  expect(layOutPage(4).words).toMatch(/Seats: 30° · 45° seat · 60°\./);
  const springs = (text: string) => `${text}springs: { installed_height: 33.0 mm, set_up_for: 10 mm }\n`;
  expect(layOutPage(4, "A4", springs).words).toMatch(
    /Springs: 33.00 mm installed, set up for valve lift up to 10\.0 mm\./,
  );
  const held = (text: string) => `${text}report: { hold_back: [ seat cuts, port volume, pinch ] }\n`;
  expect(layOutPage(4, "A4", held).words).not.toMatch(/Seat width|Seats:|Port volume|Pinch/);
});
