import type { DeclaredUnits } from "../job/schema/quantities.ts";
import type { DisplayUnits } from "./model.ts";

/** Default display units with millimetres, and with inches. */
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
 * Display units of a sheet: the declared ones, completed by metric or imperial defaults. Metric shops also use cfm and inches
 * of water; one that reads m3/h declares it.
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
