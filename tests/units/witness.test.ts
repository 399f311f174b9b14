import { evaluate, unit } from "mathjs";
import { expect, test } from "vitest";
import { fromSi, toSi } from "../../src/units/convert.ts";
import type { Kind } from "../../src/units/table.ts";

/** Our units as a general-purpose library by other hands writes them, with the SI unit of each kind. */
const WITNESSED: readonly (readonly [Kind, ours: string, theirs: string, si: string])[] = [
  ["length", "in", "inch", "m"],
  ["length", "thou", "mil", "m"],
  ["length", "mm", "mm", "m"],
  ["length", "cm", "cm", "m"],
  ["area", "in2", "sqin", "m2"],
  ["area", "mm2", "mm^2", "m2"],
  ["area", "cm2", "cm^2", "m2"],
  ["volume", "cc", "cc", "m3"],
  ["volume", "cm3", "cm^3", "m3"],
  ["volume", "ml", "ml", "m3"],
  ["volume", "in3", "cuin", "m3"],
  ["flow", "cfm", "ft^3/minute", "m^3/s"],
  ["flow", "m3/h", "m^3/hour", "m^3/s"],
  ["flow", "l/s", "litre/s", "m^3/s"],
  ["pressure", "inH2O", "2.54 cmH2O", "Pa"],
  ["pressure", "cmH2O", "cmH2O", "Pa"],
  ["pressure", "mmH2O", "mmH2O", "Pa"],
  ["pressure", "kPa", "kPa", "Pa"],
  ["pressure", "mbar", "mbar", "Pa"],
  ["pressure", "inHg", "(inch * 13595.1 kg/m^3 * 9.80665 m/s^2)", "Pa"],
  ["pressure", "mmHg", "mmHg", "Pa"],
  ["pressure", "psi", "psi", "Pa"],
  ["angle", "deg", "deg", "rad"],
  ["speed", "ft/s", "ft/s", "m/s"],
  ["force", "lbf", "lbf", "N"],
  ["force", "kgf", "kgf", "N"],
  ["power", "hp", "hp", "W"],
  ["power", "kW", "kW", "W"],
  ["powerPerFlow", "hp/cfm", "hp / (ft^3/minute)", "W/(m^3/s)"],
  ["powerPerFlow", "kW/(l/s)", "kW / (litre/s)", "W/(m^3/s)"],
  ["mass", "g", "g", "kg"],
  ["mass", "oz", "oz", "kg"],
];
/** Where the witness itself rounds: hp and psi to ten figures, mmHg to six. Everything else is exact in both. */
const ROUNDED: Readonly<Record<string, number>> = { hp: 1e-10, psi: 1e-10, "hp/cfm": 1e-10, mmHg: 4e-6 };

test.each(WITNESSED)("mathjs on %s in %s", (kind, ours, theirs, si) => {
  const value = evaluate(`7.25 * (${theirs})`).toNumber(si);
  expect(Math.abs(toSi(7.25, kind, ours) / value - 1)).toBeLessThanOrEqual(ROUNDED[ours] ?? 1e-14);
  expect(Math.abs(fromSi(value, kind, ours) / 7.25 - 1)).toBeLessThanOrEqual(ROUNDED[ours] ?? 1e-14);
});

test.each([
  ["degF", 68],
  ["degF", -40],
  ["degC", 20],
] as const)("mathjs on a temperature in %s", (name, value) => {
  expect(toSi(value, "temperature", name)).toBeCloseTo(unit(value, name).toNumber("K"), 10);
});
