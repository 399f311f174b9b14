import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formatExactQuantity } from "../../src/embed/exact-quantity.ts";
import { parseQuantity } from "../../src/units/parse-quantity.ts";
import { type Kind, unitsOf } from "../../src/units/table.ts";

const read = (text: string, kind: Kind, unit?: string) => {
  const found = parseQuantity(text, kind, unit);
  if (!found.ok) throw new Error(found.message);
  return found.value as number;
};

describe("an exact quantity", () => {
  test("is what a porter typed, in his unit", () => {
    expect(formatExactQuantity(read("1.732 in", "length"), "length", "in")).toBe("1.732 in");
    expect(formatExactQuantity(read("28 inH2O", "pressure"), "pressure", "inH2O")).toBe("28 inH2O");
    expect(formatExactQuantity(read("29.80 inHg", "pressure"), "pressure", "inH2O")).toBe("29.8 inHg");
    expect(formatExactQuantity(read("45 %", "ratio"), "ratio")).toBe("45 %");
    expect(formatExactQuantity({ kind: "mach", value: 0.55 as never }, "speed")).toBe("0.55 Mach");
  });
  test("is read back as the very same number, whatever was typed", () => {
    const kinds: readonly Kind[] = [
      "length",
      "area",
      "volume",
      "flow",
      "pressure",
      "temperature",
      "angle",
      "force",
      "mass",
    ];
    const typed = fc.constantFrom(...kinds).chain((kind) =>
      fc.tuple(
        fc.constant(kind),
        fc.constantFrom(...unitsOf(kind).map(({ name }) => name)),
        fc.integer({ min: 1, max: 999_999 }).map((n) => n / 1000),
      ),
    );
    fc.assert(
      fc.property(typed, ([kind, unit, number]) => {
        const value = read(`${number} ${unit}`, kind);
        expect(read(formatExactQuantity(value, kind, unit), kind)).toBe(value);
      }),
      { seed: 7, numRuns: 500 },
    );
  });
  test("a number too small for plain digits has no exponent", () => {
    expect(formatExactQuantity(1e-9, "length", "mm")).not.toMatch(/e/);
  });
});
