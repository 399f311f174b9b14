/**
 * The figures: everything a sheet can say, computed once. This object is what `figures --json` prints, so its keys are a
 * contract: every number SI with its unit in the key; what cannot be computed is absent, never zero or NaN.
 */
export type Figures = {
  /** Ticket number of a job; a product has a part number instead. */
  job?: string;
  /** Part number of a product. */
  product?: string;
  title: string;
  issued: string;
  revision: number | string;
  /** What everything is reported at. */
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
  /** Isentropic air through an ideal opening at the test pressure, as flow of reference density per area. */
  ideal_flow_per_area_m_s: { intake: number; exhaust: number };
};

export type StageFigures = {
  name: string;
  /** Name of the stage that this one measures again. */
  repeats?: string;
  date?: string;
  /** Name of the set that leads; `sets` are those that do not. */
  set?: string;
  intake?: SideFigures;
  exhaust?: SideFigures;
  sets: SetFigures[];
  /** Exhaust ÷ intake at lifts measured on both. */
  exhaust_to_intake: { lift_m: number; ratio: number; uncertainty?: number }[];
  chambers?: { mean_m3: number; low_m3: number; high_m3: number; n: number };
  /** Of the mean chamber; the largest gives the lowest. */
  compression_ratio?: number;
  compression_ratio_low?: number;
  compression_ratio_high?: number;
  springs?: { coil_bind_clearance_m?: number; retainer_clearance_m?: number; largest_lift_m: number };
  engine?: EngineFigures;
};

export type SideFigures = {
  valves: number;
  ports: number;
  /** Mean head diameter of this port's valves. */
  valve_diameter_m?: number;
  throat_m?: number;
  /** Throat ÷ valve diameter. */
  throat_ratio?: number;
  seat_width_m?: number;
  seat_angle_rad?: number;
  /** Smallest section of the port. */
  pinch_area_m2?: number;
  pinch_to_valve_area?: number;
  /** Port volume ÷ centreline length. */
  mean_port_area_m2?: number;
  port_volume_m3?: number;
  /** Dimensions inherited from the stage before. */
  not_remeasured: string[];
  /** Which cylinders were flowed, of how many; `of` is absent when the job does not say. */
  flowed: { cylinders: number[]; of?: number };
  /** Mean of the cylinders' means at each lift that every measured cylinder has. */
  readings: ReadingFigures[];
  /** Readings that were typed and take no part. */
  left_out: { lift_m: number; kind: "missing" | "struck out"; value_m3_s?: number; reason?: string }[];
  /** Flow at the lifts of which the sheet speaks. */
  compared: ComparedFigures[];
  /** The highest reading, never an interpolated one. */
  peak?: { lift_m: number; flow_m3_s: number; uncertainty_m3_s?: number };
  /** Over the lifts that all stages share, and no further than the cam opens the valve. */
  mean_flow?: { from_lift_m: number; to_lift_m: number; flow_m3_s: number; uncertainty_m3_s?: number };
  /** Mean flow below 0.12, from 0.12 to 0.22, and above 0.22 lift ÷ diameter. */
  bands: {
    low?: BandFigures;
    mid?: BandFigures;
    high?: BandFigures;
  };
  /** Mean over the cam's open period. */
  cam_mean_flow_m3_s?: number;
  /** Peak flow ÷ area of the valve heads. */
  flow_per_valve_area_m_s?: number;
  /** Peak flow ÷ what the pinch would ideally pass. */
  pinch_share_of_ideal?: number;
  /** From the peak to the last lift: −0.05 is 5 % down there, 0 when the peak is the last lift. */
  after_peak?: { to_lift_m: number; change: number; uncertainty?: number; verdict: Verdict };
  /** Lifts around the peak that are not clearly below it. */
  holds?: { from_lift_m: number; to_lift_m: number };
  /** Neighbouring lifts between which flow does not clearly rise, though it does later. */
  flat_spots: { from_lift_m: number; to_lift_m: number }[];
  cylinders: { cylinder: number; hand?: string; peak_flow_m3_s: number; mean_flow_m3_s: number }[];
  /** (highest − lowest) ÷ mean of the cylinders' mean flows. */
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
  /** Readings behind the mean. */
  repeats: number;
  /** Expanded, ± at 95.45 %. */
  uncertainty_m3_s?: number;
  /** Shown, and used in nothing. */
  doubtful?: true;
  noisy?: true;
  /** Test pressure at which it was read, when not the reference. */
  converted_from_Pa?: number;
  curtain_area_m2?: number;
  minimum_area_m2?: number;
  /** Which of Heywood's three stages of lift gives the minimum area. */
  minimum_area_stage?: 1 | 2 | 3;
  /** On the minimum flow area. */
  discharge_coefficient?: number;
  /** On the curtain area. */
  curtain_coefficient?: number;
  /** On the area of the valve heads. */
  valve_coefficient?: number;
  /** Mean velocity at the pinch on the bench. */
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
  /** Where the gas at the pinch reaches the stated limit: no limit of the engine. */
  pinch_limit_rpm?: number;
  /** The same for the ends of the common-practice band 0.45–0.55 Mach. */
  pinch_band_rpm?: { low: number; high: number };
  /** Taylor's inlet Mach index Z. */
  inlet_mach_index: { rpm: number; z: number }[];
  /** True when lift was taken as a raised cosine: Z does not depend on duration then. */
  inlet_mach_index_from_lift_only?: true;
  /** Where Z reaches 0.6. */
  z_limit_rpm?: number;
  pinch_velocity: { rpm: number; velocity_m_s: number }[];
  mean_piston_speed: { rpm: number; velocity_m_s: number }[];
  /** Air for at most about this: an upper estimate by a rule of thumb that the shop states. */
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
  /** How the conditions differ, in words; empty when like for like. Where nothing is compared at all, why. */
  differences: string[];
  /** Nothing is compared: no port was flowed in both, or one of the two reads as if its columns were swapped. */
  not_compared?: "no port in both" | "columns swapped";
  /** Why no verdict is given although there is a change: the check plate was more than 2 % off, or two benches state no accuracy. */
  verdict_withheld?: "check plate" | "two benches";
  from_lift_m?: number;
  to_lift_m?: number;
  mean_change_ratio?: number;
  mean_change_uncertainty_ratio?: number;
  mean_change_verdict?: Verdict;
  /** Distance of a stage measured again from itself: no smaller change is called clear. */
  floor_ratio?: number;
  changes: ChangeFigures[];
  /** Lifts at which one curve clearly passes the other. */
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
