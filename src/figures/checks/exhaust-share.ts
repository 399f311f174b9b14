import { isOutside } from "../math/limits.ts";
import { leadingSetPlace, type StageRule } from "./check-input.ts";
import { exhaustIsSmaller } from "./columns-swapped.ts";

/** Exhaust ÷ intake that a head shows. */
const LOW = 0.5;
const HIGH = 1.1;

/** Exhaust above intake at most lifts although its valves are smaller; else a share outside 0.5–1.1. @source common practice */
export const exhaustShare: StageRule = ({ stage, figures, format }) => {
  const shares = figures.exhaust_to_intake;
  // Valves are compared port by port, and so are columns.
  const byPort = (stage.ports.intake?.ports ?? 1) / (stage.ports.exhaust?.ports ?? 1);
  const above = shares.filter((one) => one.ratio * byPort > 1).length;
  if (exhaustIsSmaller(stage.ports) && above > shares.length / 2) {
    return [
      {
        code: "figures/columns-swapped",
        message: `${stage.name}: the exhaust flows more than the intake at ${above} of ${shares.length} lifts, through the smaller valve`,
        hint: "the two columns are probably swapped: swap their names in the table's head",
        ...leadingSetPlace(stage, "exhaust", shares[0]!.lift_m),
        subject: { stage: stage.name },
      },
    ];
  }
  const odd = shares.filter((one) => isOutside(one.ratio, LOW, HIGH));
  if (odd.length === 0) return [];
  const worst = odd.reduce((one, other) => (distanceOutside(other.ratio) > distanceOutside(one.ratio) ? other : one));
  return [
    {
      code: "figures/exhaust-share",
      message: `${stage.name} at ${format.lift(worst.lift_m)}: the exhaust flows ${format.ratio(worst.ratio)} of the intake, outside 0.50–1.10`,
      hint: "check both readings, their ranges and the fixture",
      ...leadingSetPlace(stage, "exhaust", worst.lift_m),
      subject: { stage: stage.name, lift: worst.lift_m },
    },
  ];
};

/** How far a share lies outside. */
const distanceOutside = (share: number) => Math.max(LOW - share, share - HIGH);
