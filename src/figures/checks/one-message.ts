import { sameLift } from "../../units/same-lift.ts";
import type { Finding, Subject } from "./check-input.ts";

/** How far a finding reaches: the reading it names, its side, or the whole stage. */
type Reach = "lift" | "side" | "stage";

const COEFFICIENTS = ["figures/curtain-over-ideal", "figures/curtain-coefficient", "figures/minimum-area-coefficient"];
const OF_READINGS = [
  ...COEFFICIENTS,
  "figures/zero-flow",
  "figures/lasting-step",
  "figures/off-trend",
  "figures/equal-neighbours",
  "figures/exhaust-share",
  "figures/pinch-share",
];

/** What follows from a finding, and is left out beside it. */
const FOLLOWS: Readonly<Record<string, { readonly reach: Reach; readonly codes: readonly string[] }>> = {
  "figures/below-leakage": {
    reach: "stage",
    codes: [...OF_READINGS, "figures/leakage", "figures/columns-swapped", "figures/wrong-row"],
  },
  "figures/leakage": { reach: "side", codes: ["figures/zero-flow"] },
  "figures/columns-swapped": { reach: "stage", codes: [...OF_READINGS, "figures/wrong-row"] },
  "figures/lift-twice": { reach: "stage", codes: [...OF_READINGS, "figures/wrong-row"] },
  "figures/wrong-row": { reach: "lift", codes: OF_READINGS },
  "figures/lasting-step": { reach: "side", codes: [...COEFFICIENTS, "figures/off-trend"] },
  "figures/zero-flow": { reach: "lift", codes: ["figures/exhaust-share"] },
  "figures/throat-share": { reach: "side", codes: ["figures/minimum-area-coefficient"] },
};

/** Of findings about one reading the one is reported that explains most: the first here; a proposed number before all. */
const EXPLAINS = [
  "figures/equal-neighbours",
  "figures/zero-flow",
  "figures/off-trend",
  ...COEFFICIENTS,
  "figures/pinch-share",
  "figures/exhaust-share",
];

/** A finding that is no other's rival. */
const UNRANKED = 99;
const rank = ({ code, proposes }: Finding) => (proposes ? -1 : EXPLAINS.indexOf(code) + 1 || UNRANKED);

/**
 * One slip, one finding: what follows from another finding is left out, and of several about one reading the one stays whose hint
 * explains most. It is an error where any of them is.
 *
 *     see FOLLOWS and EXPLAINS
 *
 * @param findings  all findings, in the order of the rules
 * @returns         those to report, in the same order
 * @source          common practice
 * @example         oneMessageEach([]) // []
 */
export function oneMessageEach(findings: readonly Finding[]): readonly Finding[] {
  const causes = findings.filter(({ code, subject }) => subject !== undefined && FOLLOWS[code]);
  const swapped = causes.some(({ code }) => code === "figures/columns-swapped");
  // Without a subject it says only that two stages are not compared.
  const isRepeated = ({ code, subject }: Finding) =>
    swapped && code === "figures/columns-swapped" && subject === undefined;
  const left = findings
    .filter((one) => !isRepeated(one))
    .filter((one) => !causes.some((cause) => cause !== one && follows(one, cause)));
  const kept = left.filter((one) => !left.some((other) => other !== one && isNamedBetter(one, other)));
  const first = new Map(kept.toReversed().map((one) => [`${one.code} ${one.cause}`, one]));
  const once = kept.filter((one) => one.cause === undefined || first.get(`${one.code} ${one.cause}`) === one);
  return once.map((one) => {
    const impossible = findings.some((other) => other.severity === "error" && isSameReading(one, other));
    return impossible && one.severity === undefined ? { ...one, severity: "error" } : one;
  });
}

function follows({ code, subject }: Finding, cause: Finding): boolean {
  const rule = FOLLOWS[cause.code]!;
  if (!rule.codes.includes(code) || subject === undefined || cause.subject === undefined) return false;
  return isWithin(subject, cause.subject, rule.reach);
}

function isWithin(one: Subject, cause: Subject, reach: Reach): boolean {
  if (one.stage !== cause.stage) return false;
  if (one.set !== undefined && cause.set !== undefined && one.set !== cause.set) return false;
  if (reach === "stage") return true;
  if (one.side !== undefined && cause.side !== undefined && one.side !== cause.side) return false;
  if (reach === "side") return true;
  return one.lift !== undefined && cause.lift !== undefined && sameLift(one.lift, cause.lift);
}

const isSameReading = ({ subject: a }: Finding, { subject: b }: Finding) =>
  a?.lift !== undefined && b?.lift !== undefined && isWithin(a, b, "lift");

/** Whether another finding about the same reading explains more. */
const isNamedBetter = (one: Finding, other: Finding) =>
  isSameReading(one, other) && rank(one) < UNRANKED && rank(other) < rank(one);
