import jsQR from "jsqr";
import { expect, test } from "vitest";
import type { Part } from "../../src/sheet/content.ts";
import { fullModel, only, sheetOf } from "./sheet-fixture.ts";

/** The package's types declare a default export that Node's import does not provide. */
const reader = jsQR as unknown as (
  data: Uint8ClampedArray,
  width: number,
  height: number,
) => { data: string } | undefined;

/** Rasterises the code with `scale` dots a cell and a white border. */
function photographed(cells: readonly (readonly boolean[])[], scale = 4, margin = 4) {
  const side = (cells.length + 2 * margin) * scale;
  const data = new Uint8ClampedArray(side * side * 4).fill(255);
  for (let y = 0; y < side; y++)
    for (let x = 0; x < side; x++)
      if (cells[Math.floor(y / scale) - margin]?.[Math.floor(x / scale) - margin])
        data.fill(0, 4 * (y * side + x), 4 * (y * side + x) + 3);
  return { data, side };
}
const read = (part: Part | undefined) => {
  if (part?.kind !== "code") throw new Error("no code");
  const { data, side } = photographed(part.cells);
  return reader(data, side, side)?.data;
};
const codeOf = (number: string) => {
  const model = fullModel();
  const named = { ...model, identity: { ...model.identity, number } };
  return sheetOf(named, only("sheet-code")).rows[0]?.cells[0]?.block.parts[0];
};

// jsQR is a reader of its own (ISO/IEC 18004), not the library that made the code.
test("the code contains number, revision and the mark of the figures, and nothing else", () => {
  expect(read(codeOf("2026-014"))).toBe("2026-014 revision 1 figures 0f1e2d3c");
  expect(read(codeOf("Łódź 12/4"))).toBe("Łódź 12/4 revision 1 figures 0f1e2d3c");
});

test("one cell changed by hand is still read, and a code without its corner marks is not", () => {
  const part = codeOf("2026-014");
  if (part?.kind !== "code") throw new Error("no code");
  const flip = (at: (x: number, y: number) => boolean) =>
    part.cells.map((row, y) => row.map((dark, x) => (at(x, y) ? !dark : dark)));
  expect(read({ ...part, cells: flip((x, y) => x === 15 && y === 15) })).toContain("2026-014");
  expect(read({ ...part, cells: flip((x, y) => x < 7 && y < 7) })).toBeUndefined();
});

test("a product has no code, since its page describes no single head", () => {
  const model = fullModel();
  const product = { ...model, identity: { ...model.identity, kind: "product" as const } };
  const blocks = sheetOf(product, only("sheet-code")).rows.flatMap(({ cells }) => cells.map(({ block }) => block.name));
  expect(blocks).toEqual(["cautions"]);
});
