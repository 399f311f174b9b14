import type { ReadingFigures } from "../figures.ts";
import { exceeds } from "../math/limits.ts";
import { type Finding, readingName, readingPlace, type SideCheckInput, type SideRule } from "./check-input.ts";

const ODD = 0.88;
const IMPOSSIBLE = 1;
/** Below this lift ÷ diameter a small lift error can produce any coefficient. */
const TRUSTED_LIFT = 0.03;

/** The readings of the table; of ports outside it those at a lift that is trusted. */
const checkedReadings = ({ readings, outside }: SideCheckInput): readonly ReadingFigures[] => [
  ...readings,
  ...outside.filter(({ lift_to_diameter: share = 0 }) => exceeds(share, TRUSTED_LIFT)),
];

/** Flow above what a curtain passes: odd above 0.88 of its ideal, refused above all of it. @source common practice */
export const curtainCoefficient: SideRule = (input) => {
  const over = checkedReadings(input).filter((one) => exceeds(one.curtain_coefficient ?? 0, ODD));
  const impossible = over.filter(
    (one) => exceeds(one.curtain_coefficient!, IMPOSSIBLE) && exceeds(one.lift_to_diameter!, TRUSTED_LIFT),
  );
  if (impossible.length > 0)
    return worstOf(input, impossible, "curtain_coefficient", (name, share) => ({
      severity: "error",
      code: "figures/curtain-over-ideal",
      message: `${name} is ${share} of all that the curtain could ever pass`,
      hint: "check the lift, the flow, the valve diameter and the number of valves, and the range read on the bench",
    }));
  return worstOf(input, over, "curtain_coefficient", (name, share) => ({
    code: "figures/curtain-coefficient",
    message: `${name} is ${share} of the curtain's ideal flow, more than a valve passes`,
    hint: "lift set too high, a wrong range, a leak, or a valve typed too small",
  }));
};

/** Highest plausible coefficient on the minimum area, up to a lift ÷ diameter. */
const LIMITS = [
  { below: 0.12, limit: 1.2 },
  { below: 0.15, limit: 1.05 },
  { below: Number.POSITIVE_INFINITY, limit: 0.97 },
] as const;

const limitAt = (share: number) => (LIMITS.find(({ below }) => share < below) ?? LIMITS[2]).limit;

/** Flow above what the minimum area passes; low lifts are allowed more, where the seat's real shape counts. @source common practice */
export const minimumAreaCoefficient: SideRule = (input) => {
  const over = checkedReadings(input).filter(
    ({ discharge_coefficient: coefficient, lift_to_diameter: share }) =>
      coefficient !== undefined && share !== undefined && exceeds(coefficient, limitAt(share)),
  );
  return worstOf(input, over, "discharge_coefficient", (name, share, reading) => ({
    code: "figures/minimum-area-coefficient",
    message: `${name} is ${share} of the minimum area's ideal flow, above ${input.format.ratio(limitAt(reading.lift_to_diameter!))}`,
    hint: "check the throat, the seat and the stem as typed, then the lift and the range",
  }));
};

/** One finding for all readings of a side that break one limit: they have one cause. It names the worst. */
function worstOf(
  input: SideCheckInput,
  over: readonly ReadingFigures[],
  key: "curtain_coefficient" | "discharge_coefficient",
  describe: (name: string, share: string, reading: ReadingFigures) => Finding,
): readonly Finding[] {
  if (over.length === 0) return [];
  const worst = over.reduce((one, other) => (other[key]! > one[key]! ? other : one));
  const name = readingName(input, worst.lift_m, worst.flow_m3_s);
  const found = describe(name, input.format.ratio(worst[key]!), worst);
  const others = over.length - 1;
  const more = others === 0 ? "" : `; so ${others === 1 ? "is one other" : `are ${others} others`} of this sweep`;
  return [{ ...found, message: found.message + more, ...readingPlace(input, worst.lift_m) }];
}
