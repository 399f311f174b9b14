import { expect, test } from "vitest";
import { columnsOfCharacter, columnsOfText } from "../../src/diagnostics/visible.ts";

test("a text takes the columns of its characters, whichever way they are counted", () => {
  const letters = Array.from({ length: 0x2fff }, (_, k) => String.fromCodePoint(k + 0x20)).filter(
    (letter) => !/[\p{C}\u2028\u2029]/u.test(letter),
  );
  for (const letter of [...letters, "語", "😀", "ｗ"])
    expect([letter, columnsOfText(letter)]).toEqual([letter, columnsOfCharacter(letter)]);
  expect(columnsOfText("C¼ −3.1 ± 0.2 語")).toBe(16);
});
