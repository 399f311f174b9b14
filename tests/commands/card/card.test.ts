import { decode } from "fast-png";
import { beforeAll, describe, expect, test } from "vitest";
import { readBack } from "../../pdf/read-back.ts";
import { type Card, cardOf, job, textOf } from "./card-of.ts";

let one: Card;
beforeAll(async () => {
  one = await cardOf(job());
});

describe("a card", () => {
  test("is 1080 × 1350 dots, and carries nothing but its pixels", () => {
    const { width, height } = decode(one.png!);
    expect([width, height]).toEqual([1080, 1350]);
    // PNG, third edition, 5.3: length, type, data, check.
    const bytes = Buffer.from(one.png!);
    const kinds = new Set<string>();
    for (let at = 8; at < bytes.length; at += 12 + bytes.readUInt32BE(at))
      kinds.add(bytes.toString("latin1", at + 4, at + 8));
    expect([...kinds].sort()).toEqual(["IDAT", "IEND", "IHDR"]);
  });

  test("is one page of type that is at least 28 dots high, all inside its edges", async () => {
    const pages = await readBack(one.pdf!);
    expect(pages).toHaveLength(1);
    const scale = 1080 / pages[0]!.width;
    for (const { text, x, y, width, size } of pages[0]!.texts) {
      // The 2 of H₂O stands below the line as a letter of the font; its line is counted.
      expect([text, size * scale >= 28]).toEqual([text, true]);
      expect([text, x >= 10 && x + width <= 324 - 10 && y >= 10 && y <= 405 - 10]).toEqual([text, true]);
    }
  });

  test("groups the conditions that nobody stated, and has room for its chart", async () => {
    const bothSides = job()
      .replaceAll("lift intake", "lift intake exhaust")
      .replaceAll(/^ +0\.\d00 +[\d.]+$/gm, (row) => `${row} 60.0`)
      .replaceAll("    flow:", "    exhaust: { valve: 1.378 }\n    flow:");
    const card = await cardOf(bothSides);
    expect(textOf(card)).toContain("bore of fixture, intake entry, exhaust pipe, air and leakage not stated");
    expect(card.diagnostics.map(({ code }) => code)).not.toContain("card/no-chart");
  });

  test("contains head, verdicts and conditions; no customer, ticket, reference, stamp, recipe or power", async () => {
    const text = textOf(one);
    for (const said of [
      "Two-valve four",
      "clear gain",
      "was ",
      "Measured on this part",
      "28 inH₂O",
      "no promise of power",
    ])
      expect(text).toContain(said);
    const painted = (await readBack(one.pdf!))[0]!.texts.map((item) => item.text).join("\n");
    for (const secret of ["9917", "Lindqvist", "REF", "7741", "5512", "1.337", "hp", "kW", "pinch", "Pinch"]) {
      expect(`${text}\n${painted}`).not.toContain(secret);
    }
    expect(one.name).toBe("9917-q_rev1_card_two-valve-four_2026-03-01.png");
  });

  test.each([
    ["a long name", job("Two-valve alloy four with the long inlet ports and the later chamber")],
    ["much to say", `draft: true\n${job()}`],
    [
      "one stage",
      job()
        .replace(/ {2}- name: As received[\s\S]*?(?= {2}- name: Finished)/, "")
        .replace("throat: 1.430", "valve: 1.654, stem: 0.315, throat: 1.430"),
    ],
  ])("of %s gives its chart the room that the text leaves", async (_, text) => {
    const { pdf, sheet, diagnostics } = await cardOf(text);
    expect(diagnostics).toEqual([]);
    const [chart] = sheet!.rows.flatMap(({ cells }) => cells[0]!.block.parts.filter(({ kind }) => kind === "charts"));
    expect(chart).toBeDefined();
    const { texts } = (await readBack(pdf!))[0]!;
    // The last line's letters stand on y; what hangs below it and a point of the search are all that is left.
    expect(Math.max(...texts.map(({ y }) => y))).toBeGreaterThan(405 - 14 - 5);
  });

  test("of a draft says so", async () => {
    expect(textOf(await cardOf(`draft: true\n${job()}`))).toContain("Draft: figures may still change.");
    expect(textOf(one)).not.toContain("Draft");
  });

  test("one side flowed is one side shown", () => {
    expect(textOf(one)).toContain("Intake");
    expect(textOf(one)).not.toContain("Exhaust");
  });

  test.each([
    ["customer", job("Lindqvist's four"), "card/tells-on"],
    ["ticket", job("Two-valve four", "Finished 9917-Q"), "card/tells-on"],
    ["stamp", job("Head ST-5512"), "card/tells-on"],
    ["recipe", job("Two-valve four", "Pinch opened"), "card/held-back"],
  ])("a name that tells the %s is refused", async (_, text, code) => {
    const card = await cardOf(text);
    expect(card.png).toBeUndefined();
    expect(card.diagnostics.map((each) => each.code)).toEqual([code]);
  });
});

describe("a job that was not flowed", () => {
  test("without readings it is refused in plain words", async () => {
    const text = job().replaceAll(/ {4}flow: \|\n(?: {6}.*\n)+/g, "");
    const card = await cardOf(text);
    expect(card.png).toBeUndefined();
    expect(card.diagnostics.map(({ message }) => message)).toEqual([
      "this job has no flow readings, and a card shows nothing else",
    ]);
  });
});
