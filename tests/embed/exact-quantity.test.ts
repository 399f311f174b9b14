import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { formatExactQuantity, formatTypedQuantity } from "../../src/embed/exact-quantity.ts";
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

describe("a quantity of which the digits count", () => {
  const again = (typed: string, unit: string, declared = unit) => {
    const found = parseQuantity(typed, "flow", unit);
    if (!found.ok) throw new Error(found.message);
    return formatTypedQuantity(found, "flow", declared);
  };
  test("keeps the digits that were typed, zeros at the end as well", () => {
    expect(again("1.20", "cfm")).toBe("1.20 cfm");
    expect(again("0", "cfm")).toBe("0 cfm");
    expect(again("0.0 cfm", "m3/h")).toBe("0.0 cfm");
    expect(again("12 m3/h", "cfm")).toBe("12 m3/h");
  });
  test("comes back with the same value and digits, whatever unit it was typed in", () =>
    fc.assert(
      fc.property(
        fc.nat(99_999),
        fc.nat(4),
        fc.constantFrom(...unitsOf("flow").map(({ name }) => name)),
        fc.constantFrom(...unitsOf("flow").map(({ name }) => name)),
        (whole, digits, unit, declared) => {
          const first = parseQuantity((whole / 10 ** digits).toFixed(digits), "flow", unit);
          if (!first.ok) throw new Error(first.message);
          const second = parseQuantity(formatTypedQuantity(first, "flow", declared), "flow");
          if (!second.ok) throw new Error(second.message);
          expect(second.value).toBe(first.value);
          expect(second.resolution / first.resolution).toBeCloseTo(1, 9);
        },
      ),
    ));
});
