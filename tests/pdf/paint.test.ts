import { inflateSync } from "node:zlib";
import { PDFParse } from "pdf-parse";
import { describe, expect, test, vi } from "vitest";
import type { Page, PlacedItem } from "../../src/layout/page.ts";
import { openFonts } from "../../src/pdf/font/fonts.ts";
import { blendWithWhite } from "../../src/pdf/operators.ts";
import { paintPdf } from "../../src/pdf/paint.ts";
import { flowTexts } from "../layout/boxes.ts";
import { dummySheet } from "../layout/dummy-sheet.ts";
import { fonts, meta, pagesOf, paintPages, unpacked } from "./a-pdf.ts";
import { readBack } from "./read-back.ts";
import { tinyPng } from "./tiny-png.ts";

const sheet = dummySheet();
const pages = pagesOf(sheet);
const artifact = { tag: { kind: "artifact" }, block: "b" } as const;
const page = (...items: readonly PlacedItem[]): Page => ({ width: 300, height: 200, items });
const plain = (bytes: Buffer) => unpacked(bytes, inflateSync);

describe("what another reader finds", () => {
  test("the letters of a text, also where an earlier document used one as a part of another", async () => {
    const shared = openFonts();
    const saying = (text: string) =>
      paintPdf(
        [
          page({
            ...artifact,
            kind: "text",
            text,
            x: 10,
            y: 20,
            width: 50,
            size: 10,
            weight: "semibold",
            color: "#000000",
          }),
        ],
        {
          fonts: shared,
          images: new Map(),
          meta,
        },
      );
    expect((await readBack(await saying("Ö"))).flatMap(({ texts }) => texts.map(({ text }) => text)).join("")).toBe(
      "Ö",
    );
    const second = await saying("O");
    expect((await readBack(second)).flatMap(({ texts }) => texts.map(({ text }) => text)).join("")).toBe("O");
    expect(
      second.equals(
        await paintPdf(
          [
            page({
              ...artifact,
              kind: "text",
              text: "O",
              x: 10,
              y: 20,
              width: 50,
              size: 10,
              weight: "semibold",
              color: "#000000",
            }),
          ],
          { fonts: openFonts(), images: new Map(), meta },
        ),
      ),
    ).toBe(true);
  });
  test("every text of the pages, in reading order, within a hundredth of a point of its place, in its font", async () => {
    const read = await readBack(await paintPages(pages));
    expect(read.length).toBe(pages.length);
    const fonts = { regular: "IBMPlexSans-Regular", medium: "IBMPlexSans-Medium", semibold: "IBMPlexSans-SemiBold" };
    read.forEach((seen, i) => {
      const placed = pages[i]!.items.filter((item) => item.kind === "text");
      for (const item of placed) {
        const found = seen.texts.find((t) => Math.abs(t.x - item.x) < 0.011 && Math.abs(t.y - item.y) < 0.011);
        expect(found?.text.trimEnd(), item.text).toBe(item.text);
        expect(found!.size).toBeCloseTo(item.size, 3);
        expect(found!.font).toBe(fonts[item.weight]);
        expect(found!.text.endsWith(" ") || Math.abs(found!.width - item.width) < 0.05).toBe(true);
      }
      const order = seen.texts.map((t) => t.text.trimEnd());
      const wanted = flowTexts(pages[i]!).map((t) => t.text);
      let from = 0;
      for (const text of wanted) {
        from = order.indexOf(text, from) + 1;
        expect(from, text).toBeGreaterThan(0);
      }
    });
  });
  test("a chart's lines as vectors: place, pen and dash; its upright words turned", async () => {
    const read = await readBack(await paintPages(pages));
    const drawing = pages[0]!.items.find((item) => item.kind === "drawing" && item.tag.kind === "figure")!;
    if (drawing.kind !== "drawing") throw new Error("no drawing");
    const curves = drawing.drawing.items.filter((item) => item.kind === "path" && item.role === "curve");
    expect(curves.length).toBe(2);
    for (const curve of curves) {
      if (curve.kind !== "path") continue;
      const start = curve.d.map((command) => [Number(command[1]) + drawing.x, Number(command[2]) + drawing.y]);
      const found = read[0]!.paths.find(
        (p) => p.stroke?.color === curve.stroke!.color && Math.abs(p.points[0]![0] - start[0]![0]!) < 0.01,
      )!;
      found.points.forEach(([x, y], i) => {
        expect(x).toBeCloseTo(start[i]![0]!, 2);
        expect(y).toBeCloseTo(start[i]![1]!, 2);
      });
      expect(found.stroke).toEqual({
        color: curve.stroke!.color,
        width: curve.stroke!.width,
        dash: curve.stroke!.dash,
      });
    }
    expect(read[0]!.texts.find((t) => t.text === "Flow (cfm)")!.angle).toBeCloseTo(-90, 3);
  });
});

describe("the file", () => {
  test("same pages, same bytes, on another day and in another time zone", async () => {
    const first = await paintPages(pages);
    const zone = process.env.TZ;
    vi.useFakeTimers({ toFake: ["Date"], now: new Date("2031-12-31T23:30:00Z") });
    process.env.TZ = "Pacific/Auckland";
    try {
      expect(new Date().getFullYear()).toBe(2032);
      expect((await paintPages(pages)).equals(first)).toBe(true);
    } finally {
      process.env.TZ = zone;
      vi.useRealTimers();
    }
  });
  test("is well under 0.3 MB without pictures", async () =>
    expect((await paintPages(pages)).length).toBeLessThan(100_000));
  test("metadata is escaped in XMP and plain in the info dictionary", async () => {
    const text = plain(await paintPages(pages));
    expect(text).toContain('<rdf:li xml:lang="x-default">Head A &amp; B &lt;c&gt;</rdf:li>');
    expect(text).toContain("(Head A & B <c>)");
    expect(text).toContain("(D:20260314120000Z)");
    expect(text).not.toContain("PDFKit");
  });
  // ISO 14289-1 clause 5, ISO 19005-3 6.6.4; the rules behind the claim are held in tests/conformance.
  test("says that it is accessible and archival; with a picture in printer's inks, accessible only", async () => {
    const text = plain(await paintPages(pages));
    expect(text).toContain("<pdfuaid:part>1</pdfuaid:part>");
    expect(text).toContain("<pdfaid:part>3</pdfaid:part><pdfaid:conformance>A</pdfaid:conformance>");
    const image = { kind: "image", x: 0, y: 0, width: 20, height: 10, image: "photo", ...artifact } as const;
    const inked = plain(await paintPages([page(image)], new Map([["photo", inkedJpeg()]])));
    expect(inked).toContain("/DeviceCMYK");
    expect(inked).toContain("<pdfuaid:part>1</pdfuaid:part>");
    expect(inked).not.toMatch(/pdfaid:part|pdfaExtension/);
  });
  // ISO 14289-1 rules as paraphrased in pdf-conformance.json: marked, language, title shown, tabs in structure order.
  test("is marked, with language, title and tab order", async () => {
    const text = plain(await paintPages(pages));
    for (const wanted of ["/Marked true", "/Lang (en)", "/DisplayDocTitle true", "/Tabs /S", "/PageMode /UseNone"])
      expect(text).toContain(wanted);
    expect(text).not.toMatch(/\/(JavaScript|Launch|Encrypt)\b/);
    expect(text).not.toMatch(/\/(ca|CA) 0?\.\d/);
  });
  // 7.1-1 to 7.1-3: every operator that paints stands inside one marked content, and none inside two.
  test("all ink is tagged or an artifact, never both", async () => {
    const text = plain(await paintPages(pages));
    const streams = [...text.matchAll(/stream\n([\s\S]*?)\nendstream/g)]
      .map((m) => m[1]!)
      .filter((s) => s.includes("BDC"));
    expect(streams.length).toBe(pages.length);
    for (const stream of streams) {
      let depth = 0;
      for (const line of stream.split("\n")) {
        if (/\bBDC$/.test(line)) depth++;
        if (line === "EMC") depth--;
        expect(depth === 0 || depth === 1).toBe(true);
        if (/(\bTJ|\bDo|\bS|\bf|\bB)$/.test(line)) expect(depth, line).toBe(1);
      }
      expect(depth).toBe(0);
    }
  });
  // 7.2-42 rows of one length, 7.5-1 header cells with a scope, 7.3-1 figures with a text.
  test("rows of a table are of one length, heads have a scope, figures a text and a box", async () => {
    const text = plain(await paintPages(pages));
    const objects = new Map([...text.matchAll(/(?:^|\n)(\d+) 0 obj\n([\s\S]*?)\nendobj/g)].map((m) => [m[1]!, m[2]!]));
    const kids = (body: string) =>
      [...(/\/K \[([^\]]*)\]/.exec(body)?.[1] ?? "").matchAll(/(\d+) 0 R/g)].map((m) => objects.get(m[1]!)!);
    const bodies = [...objects.values()];
    const tables = bodies.filter((body) => /\/S \/Table\b/.test(body));
    expect(tables.length).toBe(3);
    for (const table of tables) {
      const rows = kids(table).flatMap((part) => kids(part).filter((body) => /\/S \/TR\b/.test(body)));
      const lengths = rows.map((row) =>
        kids(row).reduce((sum, cell) => sum + Number(/\/ColSpan (\d+)/.exec(cell)?.[1] ?? 1), 0),
      );
      expect(new Set(lengths).size).toBe(1);
    }
    const heads = bodies.filter((body) => /\/S \/TH\b/.test(body));
    expect(heads.length).toBeGreaterThan(20);
    for (const head of heads) expect(head).toMatch(/\/Scope \/(Row|Column)/);
    const figures = bodies.filter((body) => /\/S \/Figure\b/.test(body));
    expect(figures.length).toBe(2);
    for (const figure of figures) {
      expect(figure).toContain("/Alt (Line chart");
      expect(figure).toContain("/BBox");
    }
  });
  test("links say where they lead", async () => {
    const text = plain(await paintPages(pages));
    expect(text).toContain("/URI (mailto:bench@harbourheads.example)");
    expect(text).toContain("/Contents (bench@harbourheads.example)");
    expect(text.match(/\/Type \/OBJR/g)?.length).toBe(2);
  });
  // ISO 14289-1, 7.4.2: a template of one's own may have no title, and headings may not begin at the second level.
  test("no level of headings is skipped on the way down, whatever a template leaves out", async () => {
    const head = (level: 1 | 2 | 3, id: string, y: number) =>
      ({
        kind: "text",
        text: id,
        x: 10,
        y,
        width: 50,
        size: 11,
        weight: "semibold",
        color: "#000000",
        tag: { kind: "heading", level, id },
        block: "b",
      }) as const;
    const text = plain(
      await paintPages([page(head(2, "a", 20), head(3, "b", 40), head(2, "c", 60), head(3, "d", 80))]),
    );
    expect([...text.matchAll(/\/S \/(H\d)/g)].map(([, level]) => level).toSorted()).toEqual(["H1", "H2", "H2", "H3"]);
  });
  test("the outline holds every heading once, wrapped ones whole", async () => {
    const tag = { kind: "heading", level: 1, id: "h" } as const;
    const line = {
      kind: "text",
      x: 10,
      width: 50,
      size: 16,
      weight: "semibold",
      color: "#000000",
      tag,
      block: "b",
    } as const;
    const text = plain(await paintPages([page({ ...line, text: "A long", y: 20 }, { ...line, text: "title", y: 40 })]));
    expect(text).toContain("/Title (A long title)");
    expect(text).toMatch(/\/Dest \[\d+ 0 R \/Fit\]/);
    expect(text).toMatch(/\/Count 1\n\/First/);
  });
});

describe("pictures", () => {
  const png = tinyPng();
  test("one picture drawn three times is in the file once", async () => {
    const image = { kind: "image", y: 10, width: 20, height: 10, image: "logo", ...artifact } as const;
    const text = plain(
      await paintPages(
        [page({ ...image, x: 0 }, { ...image, x: 30 }), page({ ...image, x: 60 })],
        new Map([["logo", png]]),
      ),
    );
    expect(text.match(/\/Subtype \/Image/g)?.length).toBe(1);
    expect(text.match(/\/I1 Do/g)?.length).toBe(3);
  });
  test("one with a see-through ground keeps it, and the bytes stay the same", async () => {
    const image = { kind: "image", x: 0, y: 0, width: 20, height: 10, image: "logo", ...artifact } as const;
    const images = new Map([["logo", tinyPng(6, [0, 10, 20, 30, 255, 10, 20, 30, 0])]]);
    const bytes = await paintPages([page(image)], images);
    expect(plain(bytes).match(/\/SMask \d+ 0 R/g)?.length).toBe(1);
    expect((await paintPages([page(image)], images)).equals(bytes)).toBe(true);
  });
  test("a picture nobody gave is our own fault, by name", async () => {
    const image = { kind: "image", x: 0, y: 0, width: 1, height: 1, image: "gone", ...artifact } as const;
    await expect(paintPages([page(image)])).rejects.toThrow(/gone/);
  });
});

test("a light fill is mixed with the paper beforehand", () => {
  // 30 % of #000000 on white: 255 × 0.7 = 178.5, rounded 179 = b3.
  expect(blendWithWhite("#000000", 0.3)).toBe("#b3b3b3");
  expect(blendWithWhite("#1f4e5f", 1)).toBe("#1f4e5f");
});

test("text below every margin adds no page", async () => {
  const text = {
    kind: "text",
    text: "low",
    x: 10,
    y: 199,
    width: 20,
    size: 9,
    weight: "regular",
    color: "#000000",
    ...artifact,
  } as const;
  expect((await readBack(await paintPages([page(text)]))).length).toBe(1);
});

test("files travel inside the PDF, byte for byte, with what they are to the page", async () => {
  const csv = Buffer.from("lift_mm,flow\n1.0,25.8\n");
  const attachments = [
    { name: "readings.csv", bytes: csv, type: "text/csv", description: "The readings", relationship: "Data" },
  ] as const;
  const bytes = await paintPdf(pages, { fonts, images: new Map(), meta, attachments });
  const text = plain(bytes);
  expect(text).toContain("/AFRelationship /Data");
  expect(text).toContain("/Subtype /text#2Fcsv");
  expect(text).not.toContain("/CheckSum");
  const parser = new PDFParse({ data: new Uint8Array(bytes), verbosity: 0 });
  const doc = await (parser as unknown as { load(): Promise<{ getAttachments(): Promise<object> }> }).load();
  const found = Object.values(await doc.getAttachments()) as { filename: string; content: Uint8Array }[];
  expect(found.map((file) => [file.filename, Buffer.from(file.content).toString()])).toEqual([
    ["readings.csv", csv.toString()],
  ]);
  await parser.destroy();
});

/** As much of a JPEG as says its size and its four inks (ITU-T T.81, B.2.2): SOI, SOF0, EOI. */
const inkedJpeg = () =>
  Buffer.from([
    0xff,
    0xd8,
    0xff,
    0xc0,
    0,
    20,
    8,
    0,
    1,
    0,
    1,
    4,
    ...[1, 2, 3, 4].flatMap((id) => [id, 0x11, 0]),
    0xff,
    0xd9,
  ]);
