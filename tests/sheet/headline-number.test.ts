import { expect, test } from "vitest";
import { decimalsByUncertainty } from "../../src/sheet/words/headline-number.ts";

// Worked values: 246 cfm at ± 5, 95.3 L/s at ± 1.8, 194 cfm at ± 3.6.
test.each([
  [5, 0],
  [1.8, 1],
  [3.6, 0],
  [3.5, 1],
  [0.12, 2],
  [15, 0],
  [40, -1],
  [9.96, 0],
])("a flow with ± %d has %d decimals", (plusMinus, decimals) =>
  expect(decimalsByUncertainty(plusMinus) + 0).toBe(decimals),
);
