/**
 * The figures: everything a sheet can say, computed once. This object is what `figures --json` prints, so its keys are a
 * contract: every number SI with its unit in the key; what cannot be computed is absent, never zero or NaN.
 */
export type Figures = {
  job?: string;
  product?: string;
  title: string;
  issued: string;
  revision: number | string;
  reference: ReferenceFigures;
  stages: StageFigures[];
  comparisons: Comparison[];
  /** Other heads, for drawing beside this one; under their label only. */
  others?: (StageFigures & { label: string })[];
  sample?: SampleFigures;
  /** Filled in by whoever checked the job: all that `check` would say of it. */
  warnings: WarningFigure[];
};

export type WarningFigure = { code: string; text: string; file?: string; line?: number; column?: number };

export type ReferenceFigures = {
  test_pressure_Pa: number;
  air: {
    temperature_K: number;
    pressure_Pa: number;
    relative_humidity: number;
    density_kg_m3: number;
    sound_speed_m_s: number;
  };
  ideal_flow_per_area_m_s: { intake: number; exhaust: number };
};

export type StageFigures = {
  name: string;
  repeats?: string;
  date?: string;
  set?: string;
  intake?: SideFigures;
  exhaust?: SideFigures;
  sets: SetFigures[];
  exhaust_to_intake: { lift_m: number; ratio: number; uncertainty?: number }[];
  chambers?: { mean_m3: number; low_m3: number; high_m3: number; n: number };
  compression_ratio?: number;
  compression_ratio_low?: number;
  compression_ratio_high?: number;
  springs?: { coil_bind_clearance_m?: number; retainer_clearance_m?: number; largest_lift_m: number };
  engine?: EngineFigures;
};

export type SideFigures = {
  valves: number;
  ports: number;
  valve_diameter_m?: number;
  throat_m?: number;
  throat_ratio?: number;
  seat_width_m?: number;
  seat_angle_rad?: number;
  pinch_area_m2?: number;
  pinch_to_valve_area?: number;
  mean_port_area_m2?: number;
  port_volume_m3?: number;
  not_remeasured: string[];
  /** Which cylinders were flowed, of how many; `of` is absent when the job does not say. */
  flowed: { cylinders: number[]; of?: number };
  readings: ReadingFigures[];
  left_out: { lift_m: number; kind: "missing" | "struck out"; value_m3_s?: number; reason?: string }[];
  compared: ComparedFigures[];
  peak?: { lift_m: number; flow_m3_s: number; uncertainty_m3_s?: number };
  mean_flow?: { from_lift_m: number; to_lift_m: number; flow_m3_s: number; uncertainty_m3_s?: number };
  bands: {
    low?: BandFigures;
    mid?: BandFigures;
    high?: BandFigures;
  };
  cam_mean_flow_m3_s?: number;
  flow_per_valve_area_m_s?: number;
  pinch_share_of_ideal?: number;
  after_peak?: { to_lift_m: number; change: number; uncertainty?: number; verdict: Verdict };
  holds?: { from_lift_m: number; to_lift_m: number };
  flat_spots: { from_lift_m: number; to_lift_m: number }[];
  cylinders: { cylinder: number; hand?: string; peak_flow_m3_s: number; mean_flow_m3_s: number }[];
  cylinder_spread?: number;
  /** Largest ratio of report pressure to test pressure among the readings; 1 when none was converted. */
  conversion_pressure_ratio?: number;
  /** Outside diameter of the seat, where stated: the minimum flow area starts from it, else from the valve head. */
  seat_outside_m?: number;
  /** The interpolant sampled for drawing: [lift_m, flow_m3_s], from the first to the last good reading. */
  curve: [number, number][];
  /** Flow over the cam's open period, when the cam's lift against crank angle is known: [crank_angle_rad, flow_m3_s]. */
  opening?: [number, number][];
};

export type BandFigures = { from_lift_m: number; to_lift_m: number; flow_m3_s: number };

export type ReadingFigures = {
  lift_m: number;
  flow_m3_s: number;
  lift_to_diameter?: number;
  repeats: number;
  uncertainty_m3_s?: number;
  doubtful?: true;
  noisy?: true;
  converted_from_Pa?: number;
  curtain_area_m2?: number;
  minimum_area_m2?: number;
  minimum_area_stage?: 1 | 2 | 3;
  discharge_coefficient?: number;
  curtain_coefficient?: number;
  valve_coefficient?: number;
  pinch_velocity_m_s?: number;
};

export type ComparedFigures = {
  at: number | "low" | "mid" | "high" | "cam" | "peak";
  lift_m: number;
  flow_m3_s: number;
  uncertainty_m3_s?: number;
  interpolated?: true;
};

export type SetFigures = {
  name: string;
  conditions: string[];
  intake?: SetSideFigures;
  exhaust?: SetSideFigures;
};
export type SetSideFigures = Pick<SideFigures, "readings" | "left_out" | "peak" | "curve">;

export type EngineFigures = {
  pinch_limit_rpm?: number;
  /** The same for the ends of the common-practice band 0.45–0.55 Mach. */
  pinch_band_rpm?: { low: number; high: number };
  inlet_mach_index: { rpm: number; z: number }[];
  /** True when lift was taken as a raised cosine: Z does not depend on duration then. */
  inlet_mach_index_from_lift_only?: true;
  z_limit_rpm?: number;
  pinch_velocity: { rpm: number; velocity_m_s: number }[];
  mean_piston_speed: { rpm: number; velocity_m_s: number }[];
  supported_power_W?: number;
};

export type Verdict =
  | "clear gain"
  | "clear loss"
  | "clearly higher"
  | "clearly lower"
  | "within repeatability"
  | "too few repeats";

export type Comparison = {
  from: { stage: string; label?: string };
  to: { stage: string; label?: string };
  side: "intake" | "exhaust";
  like_for_like: boolean;
  differences: string[];
  /** Why no verdict is given although there is a change: the check plate was more than 2 % off. */
  verdict_withheld?: "check plate";
  from_lift_m?: number;
  to_lift_m?: number;
  mean_change_ratio?: number;
  mean_change_uncertainty_ratio?: number;
  mean_change_verdict?: Verdict;
  floor_ratio?: number;
  changes: ChangeFigures[];
  crossovers_m: number[];
};

export type ChangeFigures = {
  lift_m: number;
  change_m3_s: number;
  change_ratio: number;
  uncertainty_m3_s?: number;
  verdict: Verdict;
  interpolated?: true;
};

export type SampleFigures = { n: number; intake?: SampleSideFigures; exhaust?: SampleSideFigures };
export type SampleSideFigures = {
  readings: {
    lift_m: number;
    n: number;
    mean_m3_s: number;
    low_m3_s: number;
    high_m3_s: number;
    standard_deviation_m3_s?: number;
  }[];
};
