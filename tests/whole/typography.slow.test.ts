import { beforeAll, describe, expect, test } from "vitest";
import { types } from "../../src/layout/type-sizes.ts";
import { type ReadText, readBack } from "../pdf/read-back.ts";
import { kit, makeWhole, ROOT } from "./demo.ts";

/** Finished sheets of both shops, read back by somebody else's reader. */
const sheets = [
  ["alder-lane/2026-014.yaml", "handover"],
  ["fennick/f-231.yaml", "handover"],
] as const;

const decimals = ({ text }: ReadText) => text.split(".")[1]?.length ?? 0;

describe.each(sheets)("%s as %s", (job, template) => {
  let pages: readonly (readonly ReadText[])[] = [];
  const all = () => pages.flat();
  beforeAll(async () => {
    const { pdf } = await makeWhole(`${ROOT}jobs/${job}`, { templates: [template] });
    pages = (await readBack(pdf)).map(({ texts }) => texts);
  }, 60_000);
  /** Cells of tables: figures in the type of tables, and nothing beside them in one text. */
  const figures = (page: readonly ReadText[]) =>
    page.filter(({ text, size }) => near(size, types.table.size, 0.01) && /^[+−]?\d+(\.\d+)?$/.test(text));

  test("decimals of figures with as many of them stand under each other, to a tenth of a point", () => {
    let pairs = 0;
    for (const page of pages)
      for (const [a, b] of neighbours(figures(page))) {
        // A column of sizes in unlike units stands flush right.
        if (decimals(a) !== decimals(b)) continue;
        pairs++;
        expect.soft(Math.abs(pointOf(a) - pointOf(b)), `${a.text} over ${b.text}`).toBeLessThan(0.1);
      }
    expect(pairs).toBeGreaterThan(30);
  });

  test("figures are tabular: as many digits, as wide", () => {
    const widths = new Map<string, number>();
    for (const { text, width, font } of pages.flatMap(figures)) {
      const shape = `${font} ${text.replace(/\d/g, "0")}`;
      expect.soft(near(width, widths.get(shape) ?? width, 0.01), text).toBe(true);
      widths.set(shape, width);
    }
  });

  test("a minus is a minus", () => {
    expect(all().filter(({ text }) => /(^|[\s(±])-\s?\d/.test(text))).toEqual([]);
  });

  test("every change has its sign", () => {
    const changes = pages.flatMap((page) =>
      page
        .filter(({ text, size }) => text === "Change" && near(size, types.table.size, 0.01))
        .flatMap((head) => downFrom(head, figures(page))),
    );
    expect(changes.length).toBeGreaterThan(5);
    expect(changes.filter(({ text }) => !/^[+−]|^0(\.0+)?$/.test(text))).toEqual([]);
  });

  test("a unit stands in the head of its column or group, not beside its figures", () => {
    let heads = 0;
    for (const page of pages)
      for (const head of page) {
        const unit = /^(?:.*\()?(mm|cfm|L\/s|%|cm³)\)?$/.exec(head.text)?.[1];
        if (unit === undefined || head.size > types.table.size + 0.01 || head.angle !== 0) continue;
        heads++;
        const column = downFrom(head, page).filter(({ size }) => near(size, types.table.size, 0.01));
        expect(column.filter(({ text }) => /^[+−]?\d[\d.]* /.test(text) && text.endsWith(` ${unit}`))).toEqual([]);
      }
    expect(heads).toBeGreaterThan(2);
  });

  test("type is of the table's sizes", () => {
    const sizes = Object.values(types).map(({ size }) => size);
    expect(all().filter(({ size }) => !sizes.some((one) => near(one, size, 0.01)))).toEqual([]);
  });
});

const near = (a: number, b: number, by: number) => Math.abs(a - b) <= by;

/** Where a figure's decimals begin. */
function pointOf({ text, x, font, size }: ReadText): number {
  const weight = /SemiBold/i.test(font) ? "semibold" : "regular";
  return x + kit.fonts.measure.width(text.split(".")[0]!, weight, size);
}

const shareColumn = (a: ReadText, b: ReadText) => a.x < b.x + b.width && b.x < a.x + a.width;

/** Figures one under the other: of one column, on lines next to each other. */
function neighbours(cells: readonly ReadText[]): readonly (readonly [ReadText, ReadText])[] {
  return cells.flatMap((a) =>
    cells
      .filter((b) => b.y - a.y > 5 && b.y - a.y < 1.5 * types.table.lead && shareColumn(a, b))
      .map((b) => [a, b] as const),
  );
}

/** What stands in a column under its head, until white space ends the table. */
function downFrom(head: ReadText, cells: readonly ReadText[]): readonly ReadText[] {
  const below = cells.filter((cell) => cell.y > head.y && shareColumn(cell, head)).sort((a, b) => a.y - b.y);
  let foot = head.y;
  const end = below.findIndex(({ y }) => {
    const gap = y - foot;
    foot = y;
    return gap > 2.5 * types.table.lead;
  });
  return end < 0 ? below : below.slice(0, end);
}
