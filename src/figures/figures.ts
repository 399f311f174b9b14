import type { Verdict } from "../model/verdict.ts";

/**
 * The figures: everything a sheet can say, computed once. This object is what `figures --json` prints, so its keys are a
 * contract: every number SI with its unit in the key; what cannot be computed is absent, never zero or NaN.
 */
export type Figures = {
  /** Ticket number of a job; a product has a part number instead. */
  readonly job?: string;
  /** Part number of a product. */
  readonly product?: string;
  readonly title: string;
  readonly issued: string;
  readonly revision: number | string;
  /** What everything is reported at. */
  readonly reference: ReferenceFigures;
  readonly stages: readonly StageFigures[];
  readonly comparisons: readonly Comparison[];
  /** Other heads, for drawing beside this one; under their label only. */
  readonly others?: readonly (StageFigures & { readonly label: string })[];
  readonly sample?: SampleFigures;
  /** Filled in by whoever checked the job: all that `check` would say of it. */
  readonly warnings: readonly WarningFigure[];
};

export type WarningFigure = {
  readonly code: string;
  readonly text: string;
  readonly file?: string;
  readonly line?: number;
  readonly column?: number;
};

/** All calculated values take the stated springs as linear. */
export type ValveTrainFigures = {
  readonly springs?: {
    readonly intake?: SideSprings;
    readonly exhaust?: SideSprings;
  };
  /** Of what is set, over the valves of a side that have it. */
  readonly spreads: readonly {
    readonly side: "intake" | "exhaust";
    readonly value: "installed_height_m" | "shim_m" | "tip_m" | "drop_m";
    readonly low_m: number;
    readonly high_m: number;
    readonly median_m: number;
    readonly n: number;
  }[];
  /** By cylinder, intake before exhaust. */
  readonly valves: readonly ValveFigures[];
};

type SideSprings = {
  readonly rate_N_m?: number;
  readonly rate_from?: "stated" | "forces";
  readonly set_up_lift_m?: number;
};

export type ValveFigures = {
  /** Cylinder, side and letter, such as `2Ia`. */
  readonly valve: string;
  readonly cylinder: number;
  readonly side: "intake" | "exhaust";
  readonly letter?: string;
  readonly installed_height_m?: number;
  readonly shim_m?: number;
  readonly tip_m?: number;
  readonly drop_m?: number;
  readonly guide_clearance_m?: number;
  readonly seat_runout_m?: number;
  readonly vacuum_Pa?: number;
  readonly vacuum?: "held" | "lost";
  readonly seat_force_N?: number;
  readonly set_up_force_N?: number;
  readonly coil_bind_clearance_m?: number;
  readonly retainer_clearance_m?: number;
  /** Keys of the values that are not as in the rest of the row. */
  readonly not_alike: readonly string[];
  /** Keys of the values beyond a limit of the shop. */
  readonly beyond_limit: readonly string[];
};

export type ReferenceFigures = {
  readonly test_pressure_Pa: number;
  readonly air: {
    readonly temperature_K: number;
    readonly pressure_Pa: number;
    readonly relative_humidity: number;
    readonly density_kg_m3: number;
    readonly sound_speed_m_s: number;
  };
  /** Isentropic air through an ideal opening at the test pressure, as flow of reference density per area. */
  readonly ideal_flow_per_area_m_s: { readonly intake: number; readonly exhaust: number };
};

export type StageFigures = {
  readonly name: string;
  /** Name of the stage that this one measures again. */
  readonly repeats?: string;
  readonly date?: string;
  /** Name of the set that leads; `sets` are those that do not. */
  readonly set?: string;
  readonly intake?: SideFigures;
  readonly exhaust?: SideFigures;
  readonly sets: readonly SetFigures[];
  /** Exhaust ÷ intake at lifts measured on both. */
  readonly exhaust_to_intake: readonly {
    readonly lift_m: number;
    readonly ratio: number;
    readonly uncertainty?: number;
    readonly budget?: Budget;
  }[];
  readonly chambers?: {
    readonly mean_m3: number;
    readonly low_m3: number;
    readonly high_m3: number;
    readonly n: number;
  };
  /** With the mean chamber; the lowest is with the largest chamber. */
  readonly compression_ratio?: number;
  readonly compression_ratio_low?: number;
  readonly compression_ratio_high?: number;
  /** What was set and checked valve by valve, and what follows from it. */
  readonly valve_train?: ValveTrainFigures;
  readonly springs?: {
    readonly coil_bind_clearance_m?: number;
    readonly retainer_clearance_m?: number;
    readonly largest_lift_m: number;
  };
  readonly engine?: EngineFigures;
};

export type SideFigures = {
  readonly valves: number;
  readonly ports: number;
  /** Mean head diameter of this port's valves. */
  readonly valve_diameter_m?: number;
  readonly throat_m?: number;
  /** Throat ÷ valve diameter. */
  readonly throat_ratio?: number;
  readonly seat_width_m?: number;
  readonly seat_angle_rad?: number;
  /** Smallest section of the port. */
  readonly pinch_area_m2?: number;
  readonly pinch_to_valve_area?: number;
  /** Port volume ÷ centreline length. */
  readonly mean_port_area_m2?: number;
  readonly port_volume_m3?: number;
  /** Dimensions inherited from the stage before. */
  readonly not_remeasured: readonly string[];
  /** Which cylinders were flowed, `n` ports of how many; `of` is absent when the job does not say. */
  readonly flowed: { readonly cylinders: readonly number[]; readonly n: number; readonly of?: number };
  /** Hand of the ports of which the curve is, where one was stated. */
  readonly hand?: string;
  /** Mean of the full cylinders' means at each lift that any of them has. */
  readonly readings: readonly ReadingFigures[];
  /** Every reading as it was typed, at reference conditions, of all cylinders: lifts ascending. */
  readonly typed: readonly TypedReading[];
  /** What the ± of this side rest on. */
  readonly sources?: UncertaintySources;
  /** Readings that were typed and take no part; with the cylinder where several were flowed. */
  readonly left_out: readonly {
    readonly cylinder?: number;
    readonly hand?: string;
    readonly lift_m: number;
    /** A doubtful one is listed where a good one of its port stands at the lift. */
    readonly kind: "missing" | "struck out" | "doubtful";
    readonly value_m3_s?: number;
    readonly reason?: string;
  }[];
  /** Flow at the lifts of which the sheet speaks. */
  readonly compared: readonly ComparedFigures[];
  /** The highest reading, never an interpolated one. */
  readonly peak?: {
    readonly lift_m: number;
    readonly flow_m3_s: number;
    readonly uncertainty_m3_s?: number;
    readonly budget?: Budget;
  };
  /** Over the lifts and the cylinders that are full in all stages, and no further than the cam opens the valve. */
  readonly mean_flow?: {
    readonly cylinders: readonly number[];
    readonly from_lift_m: number;
    readonly to_lift_m: number;
    readonly flow_m3_s: number;
    readonly uncertainty_m3_s?: number;
    readonly budget?: Budget;
  };
  /** Mean flow below 0.12, from 0.12 to 0.22, and above 0.22 lift ÷ diameter. */
  readonly bands: {
    readonly low?: BandFigures;
    readonly mid?: BandFigures;
    readonly high?: BandFigures;
  };
  /** Mean over the cam's open period. */
  readonly cam_mean_flow_m3_s?: number;
  /** Peak flow ÷ area of the valve heads. */
  readonly flow_per_valve_area_m_s?: number;
  /** Peak flow ÷ what the pinch would ideally pass. */
  readonly pinch_share_of_ideal?: number;
  /**
   * From the peak to the last lift: −0.05 is 5 % down there, 0 without ± and verdict when the peak is the last lift. Absent,
   * as `holds` and `flat_spots`, where readings were converted by more than a factor 1.5 in pressure.
   */
  readonly after_peak?: {
    readonly to_lift_m: number;
    readonly change: number;
    readonly uncertainty?: number;
    readonly budget?: Budget;
    readonly verdict?: Verdict;
  };
  /** Lifts around the peak that are not clearly below it. */
  readonly holds?: { readonly from_lift_m: number; readonly to_lift_m: number };
  /** Stretches that clearly rise less than those before and after them. */
  readonly flat_spots?: readonly { readonly from_lift_m: number; readonly to_lift_m: number }[];
  /** Where two or more ports were read. */
  readonly port_to_port?: PortToPort;
  /** Peak and mean of each cylinder over the lifts of `port_to_port`. Deprecated: the next version has them there. */
  readonly cylinders: readonly {
    readonly cylinder: number;
    readonly hand?: string;
    readonly peak_flow_m3_s: number;
    readonly mean_flow_m3_s: number;
  }[];
  /** Deprecated: `spread_ratio` of `port_to_port`. */
  readonly cylinder_spread?: number;
  /** Largest ratio of report pressure to test pressure among the readings; 1 when none was converted. */
  readonly conversion_pressure_ratio?: number;
  /** Outside diameter of the seat, where stated: the minimum flow area starts from it, else from the valve head. */
  readonly seat_outside_m?: number;
  /** The interpolant sampled for drawing: [lift_m, flow_m3_s], from the first to the last good reading. */
  readonly curve: readonly (readonly [number, number])[];
  /** Flow over the cam's open period, when the cam's lift against crank angle is known: [crank_angle_rad, flow_m3_s]. */
  readonly opening?: readonly (readonly [number, number])[];
};

/** What each port flowed. A port of another hand than the curve's has no mean. */
export type PortToPort = {
  /** Lifts that all ports of the curve's hand have: over these are the means; empty where there is none. */
  readonly lifts_m: readonly number[];
  /** Mean of the ports of the curve's hand. */
  readonly mean_m3_s?: number;
  readonly cylinders: readonly {
    readonly cylinder: number;
    readonly hand?: string;
    /** Whether all lifts were read, so that it is part of the curve (if of its hand); else an evenness check. */
    readonly full: boolean;
    readonly readings: readonly {
      readonly lift_m: number;
      readonly flow_m3_s: number;
      /** Readings without re-mounting; the lowest number, where mounts differ. */
      readonly repeats: number;
      readonly doubtful?: true;
      readonly noisy?: true;
    }[];
    readonly mean_m3_s?: number;
    /** Mean ÷ mean of the means − 1. */
    readonly deviation_ratio?: number;
  }[];
  /** (highest − lowest) ÷ mean of the means. */
  readonly spread_ratio?: number;
  /** What the bench alone would give at most, at 95.45 %: no port differs clearly where the spread is not above it. */
  readonly from_bench_ratio?: number;
};

/** One reading as it was typed, at reference conditions. */
export type TypedReading = {
  readonly cylinder: number;
  readonly hand?: string;
  readonly mount: number;
  readonly lift_m: number;
  /** Absent where it is missing. */
  readonly flow_m3_s?: number;
  readonly kind: "good" | "noisy" | "doubtful" | "struck out" | "missing";
};

/** Standard uncertainty of a result, and how its ± is made: ± = k × u. */
export type Budget = {
  /** Standard uncertainty, in the unit of the ± beside it. */
  readonly u: number;
  /** Effective degrees of freedom; absent where infinite. */
  readonly dof?: number;
  /** Coverage factor at 95.45 %. */
  readonly k: number;
  /** Shares of u², which sum to 1; those that are 0 are absent. */
  readonly parts: {
    readonly accuracy?: number;
    readonly repeats?: number;
    readonly remounting?: number;
    readonly lift_setting?: number;
    readonly resolution?: number;
    readonly leakage?: number;
    readonly conversion?: number;
  };
};

/** Sources of the repeatability and of the re-mounting: `ratio` is a relative standard uncertainty, `dof` its degrees of freedom, absent where infinite. */
export type UncertaintySources = {
  /** Absent where no reading was repeated and no repeatability is stated; no verdict is given then. */
  readonly repeatability?: {
    readonly from: "repeats" | "stated" | "mounts";
    readonly ratio: number;
    readonly dof?: number;
  };
  readonly remounting: { readonly from: "own" | "stated" | "allowance"; readonly ratio: number; readonly dof?: number };
};

export type BandFigures = { readonly from_lift_m: number; readonly to_lift_m: number; readonly flow_m3_s: number };

export type ReadingFigures = {
  readonly lift_m: number;
  readonly flow_m3_s: number;
  readonly lift_to_diameter?: number;
  /** The fewest readings on one mount among its cylinders. */
  readonly repeats: number;
  /** The fewest mounts of one of its cylinders. */
  readonly mounts?: number;
  /** Cylinders of which it is the mean. */
  readonly of_cylinders?: readonly number[];
  /** A full cylinder has no good reading here: shown, and used in nothing. */
  readonly partial?: true;
  /** Expanded, ± at 95.45 %. */
  readonly uncertainty_m3_s?: number;
  readonly budget?: Budget;
  /** Shown, and used in nothing. */
  readonly doubtful?: true;
  readonly noisy?: true;
  /** Test pressure at which it was read, when not the reference. */
  readonly converted_from_Pa?: number;
  readonly curtain_area_m2?: number;
  readonly minimum_area_m2?: number;
  /** Which of Heywood's three stages of lift gives the minimum area. */
  readonly minimum_area_stage?: 1 | 2 | 3;
  /** On the minimum flow area. */
  readonly discharge_coefficient?: number;
  /** On the curtain area. */
  readonly curtain_coefficient?: number;
  /** On the area of the valve heads. */
  readonly valve_coefficient?: number;
  /** Mean velocity at the pinch on the bench. */
  readonly pinch_velocity_m_s?: number;
};

export type ComparedFigures = {
  readonly at: number | "low" | "mid" | "high" | "cam" | "peak";
  readonly lift_m: number;
  readonly flow_m3_s: number;
  readonly uncertainty_m3_s?: number;
  readonly budget?: Budget;
  readonly interpolated?: true;
};

export type SetFigures = {
  readonly name: string;
  readonly conditions: readonly string[];
  readonly intake?: SetSideFigures;
  readonly exhaust?: SetSideFigures;
};
export type SetSideFigures = Pick<
  SideFigures,
  "hand" | "readings" | "typed" | "left_out" | "peak" | "port_to_port" | "curve"
>;

export type EngineFigures = {
  /** Where the gas at the pinch reaches the stated limit: no limit of the engine. */
  readonly pinch_limit_rpm?: number;
  /** The same for the ends of the common-practice band 0.45–0.55 Mach. */
  readonly pinch_band_rpm?: { readonly low: number; readonly high: number };
  /** Taylor's inlet Mach index Z. */
  readonly inlet_mach_index: readonly { readonly rpm: number; readonly z: number }[];
  /** True when lift was taken as a raised cosine: Z does not depend on duration then. */
  readonly inlet_mach_index_from_lift_only?: true;
  /** Where Z reaches 0.6. */
  readonly z_limit_rpm?: number;
  /** Z × 180° ÷ the cam's open period; absent where that is not known. */
  readonly mean_inlet_mach?: readonly {
    readonly rpm: number;
    /** Mean inlet Mach number. */
    readonly m: number;
  }[];
  /** Where the mean inlet Mach number reaches 0.40. */
  readonly mean_inlet_mach_rpm?: number;
  readonly pinch_velocity: readonly { readonly rpm: number; readonly velocity_m_s: number }[];
  readonly mean_piston_speed: readonly { readonly rpm: number; readonly velocity_m_s: number }[];
  /** Air for at most about this: an upper estimate by a rule of thumb that the shop states. */
  readonly supported_power_W?: number;
};

export type { Verdict };

export type Comparison = {
  readonly from: { readonly stage: string; readonly label?: string };
  readonly to: { readonly stage: string; readonly label?: string };
  readonly side: "intake" | "exhaust";
  readonly like_for_like: boolean;
  /** How the conditions differ, in words; empty when like for like. Where nothing is compared at all, why. */
  readonly differences: readonly string[];
  /** Nothing is compared: no port was flowed in both, or one of the two reads as if its columns were swapped. */
  readonly not_compared?: "no port in both" | "columns swapped";
  /**
   * Why no verdict is given although there is a change: conditions differ, a check plate was more than 2 % off, two benches
   * or two ranges whose accuracy is not stated, or nothing was read twice. Verdicts are absent then, numbers stay.
   */
  readonly verdict_withheld?: "conditions" | "check plate" | "two benches" | "two ranges" | "flowed once";
  readonly from_lift_m?: number;
  readonly to_lift_m?: number;
  /** Mean flow before over that range, and over the cylinders compared. */
  readonly mean_from_m3_s?: number;
  readonly mean_change_ratio?: number;
  readonly mean_change_uncertainty_ratio?: number;
  readonly mean_change_budget?: Budget;
  readonly mean_change_verdict?: Verdict;
  /** Only with `within repeatability`: the largest change of the average that the readings leave open, |change| + ±. */
  readonly bound_ratio?: number;
  /** Peak against peak, each at its own lift. */
  readonly peak_change?: PeakChangeFigures;
  /** Cylinders over which the two are compared. */
  readonly cylinders?: readonly number[];
  /** Another head only: cylinders of the head that this one is compared with. */
  readonly from_cylinders?: readonly number[];
  /** Engine figures of the other head on this job's engine. */
  readonly engine?: EngineFigures;
  /** Intake only: which of the two should draw in more air above that engine speed, with all else alike; absent where what was measured cannot tell. */
  readonly fills_better?: { readonly head: "from" | "to"; readonly above_rpm: number };
  /** Another head only: named lifts at which the two are compared; the change at each stands in `changes`. */
  readonly compared?: readonly { readonly at: "low" | "mid" | "high" | "cam"; readonly lift_m: number }[];
  /** Distance of a stage measured again from itself: no smaller change is called clear. */
  readonly floor_ratio?: number;
  readonly changes: readonly ChangeFigures[];
  /** Lifts at which one curve clearly passes the other. */
  readonly crossovers_m: readonly number[];
};

export type ChangeFigures = {
  readonly lift_m: number;
  /** Flow before, over the cylinders compared; that after is this and the change. */
  readonly from_m3_s: number;
  readonly change_m3_s: number;
  readonly change_ratio: number;
  readonly uncertainty_m3_s?: number;
  readonly budget?: Budget;
  /** The same at the level that all measured lifts share; a lift beyond it is clear without a neighbour. Measured lifts only. */
  readonly joint_uncertainty_m3_s?: number;
  /** Absent where withheld. */
  readonly verdict?: Verdict;
  readonly interpolated?: true;
};

export type PeakChangeFigures = {
  readonly from_lift_m: number;
  readonly to_lift_m: number;
  /** As in `changes`. */
  readonly from_m3_s: number;
  readonly change_m3_s: number;
  readonly change_ratio: number;
  readonly uncertainty_m3_s?: number;
  readonly budget?: Budget;
  /** Absent where withheld. */
  readonly verdict?: Verdict;
};

export type SampleFigures = {
  readonly n: number;
  readonly intake?: SampleSideFigures;
  readonly exhaust?: SampleSideFigures;
};
export type SampleSideFigures = {
  readonly readings: readonly {
    readonly lift_m: number;
    readonly n: number;
    readonly mean_m3_s: number;
    readonly low_m3_s: number;
    readonly high_m3_s: number;
    readonly standard_deviation_m3_s?: number;
    /** Of each head that has the lift, the lowest first: which head is which stays unsaid. */
    readonly flows_m3_s: readonly number[];
    /** The largest ± of one head's reading, where each has one, and what it is made of. */
    readonly uncertainty_m3_s?: number;
    readonly budget?: Budget;
  }[];
  /** Low, mid and high, as the report names them. */
  readonly compared: readonly { readonly at: ComparedFigures["at"]; readonly lift_m: number }[];
};
