import type {
  Comparison,
  EngineFigures,
  Figures,
  ReadingFigures,
  SetSideFigures,
  SideFigures,
  StageFigures,
} from "../figures/figures.ts";
import { SIDES } from "../model/model.ts";
import type { Withheld } from "../sheet/withheld.ts";

/** Picks the keys that are named, where they are there. */
function pick<T extends object, K extends keyof T>(value: T, ...keys: readonly K[]): Pick<T, K> {
  const picked = {} as Pick<T, K>;
  for (const key of keys) if (value[key] !== undefined) picked[key] = value[key];
  return picked;
}

/**
 * The figures that travel with a sheet, key by key: what is not named here stays in the shop. No warnings; nothing of other
 * heads, which are other people's; nothing held back, nor what it could be worked out from.
 */
export function shownFigures(figures: Figures, held: Withheld) {
  return {
    ...pick(figures, "job", "product", "title", "issued", "revision", "reference"),
    stages: figures.stages.map((stage) => shownStage(stage, held)),
    comparisons: figures.comparisons
      .filter(({ from, to }) => from.label === undefined && to.label === undefined)
      .map((one) => pick(one, ...COMPARISON)),
    ...pick(figures, "sample"),
  };
}

const COMPARISON = [
  "from",
  "to",
  "side",
  "like_for_like",
  "differences",
  "not_compared",
  "verdict_withheld",
  "from_lift_m",
  "to_lift_m",
  "mean_change_ratio",
  "mean_change_uncertainty_ratio",
  "mean_change_verdict",
  "floor_ratio",
  "changes",
  "crossovers_m",
] as const satisfies readonly (keyof Comparison)[];

function shownStage(stage: StageFigures, held: Withheld) {
  return {
    ...pick(stage, "name", "repeats", "date", "set", "exhaust_to_intake", "chambers", "springs"),
    ...pick(stage, "compression_ratio", "compression_ratio_low", "compression_ratio_high"),
    ...bothSides(stage, (side) => shownSide(side, held)),
    sets: stage.sets.map((set) => ({
      ...pick(set, "name", "conditions"),
      ...bothSides(set, (side) => shownSetSide(side, held)),
    })),
    ...(stage.engine ? { engine: shownEngine(stage.engine, held) } : {}),
  };
}

function bothSides<S, T>(owner: { intake?: S; exhaust?: S }, show: (side: S) => T): { intake?: T; exhaust?: T } {
  return Object.fromEntries(SIDES.flatMap((name) => (owner[name] ? [[name, show(owner[name])]] : [])));
}

function shownSide(side: SideFigures, held: Withheld) {
  return {
    ...pick(side, "valves", "ports", "valve_diameter_m", "throat_m", "throat_ratio", "flowed", "compared", "mean_flow"),
    ...pick(side, "bands", "cam_mean_flow_m3_s", "flow_per_valve_area_m_s", "after_peak", "holds", "flat_spots"),
    ...pick(side, "cylinders", "cylinder_spread", "conversion_pressure_ratio", "opening"),
    ...(held.seat ? {} : pick(side, "seat_width_m", "seat_angle_rad", "seat_outside_m")),
    ...(held.pinch ? {} : pick(side, "pinch_area_m2", "pinch_to_valve_area", "pinch_share_of_ideal")),
    // Volume over length is the mean area: with the length on the sheet, either gives the other.
    ...(held.portVolume ? {} : pick(side, "port_volume_m3", "mean_port_area_m2")),
    not_remeasured: side.not_remeasured.filter((key) => !hides(held, key)),
    ...shownSetSide(side, held),
  };
}

const shownSetSide = (side: SetSideFigures, held: Withheld) => ({
  readings: side.readings.map((reading) => shownReading(reading, held)),
  ...pick(side, "left_out", "peak", "curve"),
});

const shownReading = (reading: ReadingFigures, held: Withheld) => ({
  ...pick(reading, "lift_m", "flow_m3_s", "lift_to_diameter", "repeats", "uncertainty_m3_s", "doubtful", "noisy"),
  ...pick(reading, "converted_from_Pa", "curtain_area_m2", "curtain_coefficient", "valve_coefficient"),
  // The smallest area under the valve is made from the seat's width and angle; the coefficient on it gives it back.
  ...(held.seat ? {} : pick(reading, "minimum_area_m2", "minimum_area_stage", "discharge_coefficient")),
  ...(held.pinch ? {} : pick(reading, "pinch_velocity_m_s")),
});

const shownEngine = (engine: EngineFigures, held: Withheld) => ({
  ...pick(engine, "inlet_mach_index", "inlet_mach_index_from_lift_only", "z_limit_rpm", "mean_piston_speed"),
  ...pick(engine, "supported_power_W"),
  ...(held.pinch ? {} : pick(engine, "pinch_limit_rpm", "pinch_band_rpm", "pinch_velocity")),
});

const hides = (held: Withheld, key: string): boolean =>
  (held.pinch && key === "pinch") ||
  (held.sections && key === "sections") ||
  (held.seat && key === "seat") ||
  (held.portVolume && (key === "port_volume" || key === "port_volumes"));
