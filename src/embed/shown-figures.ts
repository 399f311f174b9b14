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

/** Picks the named keys that are defined. */
function pick<T extends object, K extends keyof T>(value: T, ...keys: readonly K[]): Pick<T, K> {
  const picked = {} as Pick<T, K>;
  for (const key of keys) if (value[key] !== undefined) picked[key] = value[key];
  return picked;
}

/**
 * The figures embedded in a sheet, by allow-list. Excluded are warnings, other heads, withheld figures, and all from which
 * withheld figures could be computed.
 */
export function shownFigures(figures: Figures, withheld: Withheld) {
  return {
    ...pick(figures, "job", "product", "title", "issued", "revision", "reference"),
    stages: figures.stages.map((stage) => shownStage(stage, withheld)),
    comparisons: figures.comparisons
      .filter(({ from, to }) => from.label === undefined && to.label === undefined)
      .map((one) => ({
        ...pick(one, ...COMPARISON),
        // It rests on the volumes of both ports.
        ...(withheld.portVolume ? {} : pick(one, "fills_better")),
      })),
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
  "mean_from_m3_s",
  "mean_change_ratio",
  "mean_change_uncertainty_ratio",
  "mean_change_budget",
  "mean_change_verdict",
  "bound_ratio",
  "peak_change",
  "cylinders",
  "floor_ratio",
  "changes",
  "crossovers_m",
] as const satisfies readonly (keyof Comparison)[];

function shownStage(stage: StageFigures, withheld: Withheld) {
  return {
    ...pick(stage, "name", "repeats", "date", "set", "exhaust_to_intake", "chambers", "springs", "valve_train"),
    ...pick(stage, "compression_ratio", "compression_ratio_low", "compression_ratio_high"),
    ...mapSides(stage, (side) => shownSide(side, withheld)),
    sets: stage.sets.map((set) => ({
      ...pick(set, "name", "conditions"),
      ...mapSides(set, (side) => shownSetSide(side, withheld)),
    })),
    ...(stage.engine ? { engine: shownEngine(stage.engine, withheld) } : {}),
  };
}

function mapSides<S, T>(owner: { intake?: S; exhaust?: S }, show: (side: S) => T): { intake?: T; exhaust?: T } {
  return Object.fromEntries(SIDES.flatMap((name) => (owner[name] ? [[name, show(owner[name])]] : [])));
}

function shownSide(side: SideFigures, withheld: Withheld) {
  return {
    ...pick(side, "valves", "ports", "valve_diameter_m", "throat_m", "throat_ratio", "flowed", "compared", "mean_flow"),
    ...pick(side, "bands", "cam_mean_flow_m3_s", "flow_per_valve_area_m_s", "after_peak", "holds", "flat_spots"),
    ...pick(side, "sources"),
    ...pick(side, "cylinders", "cylinder_spread", "conversion_pressure_ratio", "opening"),
    ...(withheld.seat ? {} : pick(side, "seat_width_m", "seat_angle_rad", "seat_outside_m")),
    ...(withheld.pinch ? {} : pick(side, "pinch_area_m2", "pinch_to_valve_area", "pinch_share_of_ideal")),
    // Volume over length is the mean area: with the length on the sheet, either gives the other.
    ...(withheld.portVolume ? {} : pick(side, "port_volume_m3", "mean_port_area_m2")),
    not_remeasured: side.not_remeasured.filter((key) => !isWithheld(withheld, key)),
    ...shownSetSide(side, withheld),
  };
}

const shownSetSide = (side: SetSideFigures, withheld: Withheld) => ({
  readings: side.readings.map((reading) => shownReading(reading, withheld)),
  ...pick(side, "hand", "typed", "left_out", "peak", "port_to_port", "curve"),
});

const shownReading = (reading: ReadingFigures, withheld: Withheld) => ({
  ...pick(reading, "lift_m", "flow_m3_s", "lift_to_diameter", "repeats", "mounts", "uncertainty_m3_s", "budget"),
  ...pick(reading, "of_cylinders", "partial", "doubtful", "noisy"),
  ...pick(reading, "converted_from_Pa", "curtain_area_m2", "curtain_coefficient", "valve_coefficient"),
  // The minimum area follows from the seat's width and angle, and can be recovered from its discharge coefficient.
  ...(withheld.seat ? {} : pick(reading, "minimum_area_m2", "minimum_area_stage", "discharge_coefficient")),
  ...(withheld.pinch ? {} : pick(reading, "pinch_velocity_m_s")),
});

const shownEngine = (engine: EngineFigures, withheld: Withheld) => ({
  ...pick(engine, "inlet_mach_index", "inlet_mach_index_from_lift_only", "z_limit_rpm", "mean_piston_speed"),
  ...pick(engine, "mean_inlet_mach", "mean_inlet_mach_rpm", "supported_power_W"),
  ...(withheld.pinch ? {} : pick(engine, "pinch_limit_rpm", "pinch_band_rpm", "pinch_velocity")),
});

export const isWithheld = (withheld: Withheld, key: string): boolean =>
  (withheld.pinch && key === "pinch") ||
  (withheld.sections && key === "sections") ||
  (withheld.seat && key === "seat") ||
  (withheld.portVolume && (key === "port_volume" || key === "port_volumes"));
