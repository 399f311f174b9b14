import type { DeclaredUnits } from "../job/schema/quantities.ts";
import type { DisplayUnits } from "./model.ts";

/** What goes with millimetres, and with inches, where a job says no more. */
export const METRIC: DisplayUnits = {
  length: "mm",
  area: "mm2",
  volume: "cc",
  flow: "cfm",
  pressure: "inH2O",
  temperature: "degC",
  speed: "m/s",
  force: "N",
  power: "kW",
};
export const IMPERIAL: DisplayUnits = {
  length: "in",
  area: "in2",
  volume: "cc",
  flow: "cfm",
  pressure: "inH2O",
  temperature: "degF",
  speed: "ft/s",
  force: "lbf",
  power: "hp",
};

const KINDS = Object.keys(METRIC) as readonly (keyof DisplayUnits)[];

/**
 * Units of the printed sheet: those declared, the others as go with them. Flow in cfm and pressure in inches of water are
 * the trade's own in metric shops too; a shop that reads m3/h says so.
 */
export function displayUnits(declared: DeclaredUnits): DisplayUnits {
  const imperial =
    declared.length === undefined
      ? declared.temperature === "degF" || declared.area === "in2"
      : ["in", "thou"].includes(declared.length);
  const units = { ...(imperial ? IMPERIAL : METRIC) };
  for (const kind of KINDS) units[kind] = declared[kind] ?? units[kind];
  return units;
}
