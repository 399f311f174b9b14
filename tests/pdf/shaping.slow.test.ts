import { expect, test } from "vitest";
import { compileShaping } from "../../src/pdf/font/compile-shaping.ts";
import { openFonts } from "../../src/pdf/font/fonts.ts";
import { createWordShaper } from "../../src/pdf/font/shaping.ts";

// A table speaks of pairs, so every pair is all that there is to know.
test("every two letters of the tables are set as fontkit sets them", () => {
  const tables = compileShaping();
  const { faces } = openFonts();
  for (const weight of ["regular", "medium", "semibold"] as const) {
    const shape = createWordShaper(tables[weight]);
    const letters = [...tables[weight].letters, ...tables[weight].ligatures];
    for (const a of letters)
      for (const b of letters) {
        const shaped = shape(a + b);
        const own = JSON.stringify(faces[weight].shape(a + b));
        if (shaped !== undefined && JSON.stringify(shaped) !== own) expect(shaped, `${weight} ${a}${b}`).toEqual(own);
      }
    expect(letters.filter((letter) => shape(letter) === undefined)).toEqual([]);
  }
}, 300_000);
