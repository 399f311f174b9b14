import { toSi } from "../units/convert.ts";
import { kelvin, metres, pascals, ratio, type Speed } from "../units/quantity.ts";

/** The values used where neither shop nor job states one. Printed in the README, named on the sheet where they matter. */
export const DEFAULTS = {
  valves: 1,
  ports: 1,
  feeds: 1,
  cylinder: 1,
  mount: 1,
  revision: 1,
  pinchCount: 1,
  sheet: { job: ["handover"], product: ["catalogue"], headsOf: ["side-by-side"] },
  paper: "A4",
  mayCompare: "samples only",
  report: {
    testPressure: pascals(toSi(28, "pressure", "inH2O")),
    /** low, mid, high are the lifts read in all compared stages nearest 0.10, 0.18, 0.25 lift ÷ diameter; cam only when it is known. */
    lifts: ["low", "mid", "high", "cam", "peak"],
    /** Common practice, printed with its band 0.45–0.55. */
    pinchLimit: { kind: "mach", value: ratio(0.55) } satisfies Speed as Speed,
    embed: "readings",
    holdBack: [],
    strict: false,
  },
  bench: {
    reads: "flow",
    meter: "orifice",
    liftSetting: metres(toSi(0.002, "length", "in")),
  },
  /** 20 °C, 101 325 Pa, dry. */
  referenceAir: { temperature: kelvin(293.15), pressure: pascals(101_325), relativeHumidity: ratio(0) },
  /** Rocker ratio and lash of a cam given by its lobe: a follower straight on the valve, no lash. */
  rocker: 1,
  lash: metres(0),
} as const;
