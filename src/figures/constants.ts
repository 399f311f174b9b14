/** Ratio of specific heats of air, γ [1]. */
export const HEAT_RATIO = 1.4;
/** Gas constant of dry air, R [J/(kg K)]. */
export const GAS_CONSTANT = 287.05;
/** Test pressure at which power per flow is quoted: 28 conventional inches of water [Pa]. NIST SP 811 (2008) B.8. */
export const POWER_TEST_PRESSURE = 28 * 249.08891;
/** Flow below which a reading is no flow, and nothing is divided by it [m³/s]: a few millionths of a cfm. */
export const NO_FLOW = 1e-9;
/** Mean inlet Mach number at which the valve begins to hold the filling back: Fukutani & Watanabe, SAE 790484 (from memory). */
export const MEAN_MACH_MARK = 0.4;
/** Lift ÷ valve diameter where low lift ends and high lift begins. */
export const LIFT_BANDS = { low: 0.12, high: 0.22 } as const;
/** Lift ÷ valve diameter of the report's low, mid and high lift. */
export const NAMED_LIFTS = { low: 0.1, mid: 0.18, high: 0.25 } as const;
/** Degrees of freedom of an uncertainty that is stated outright. */
export const INFINITE_DOF = Number.POSITIVE_INFINITY;
