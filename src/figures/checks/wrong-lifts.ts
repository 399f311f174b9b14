import type { Reading, Stage } from "../../model/model.ts";
import { mistypings } from "../../units/mistypings.ts";
import { sameLift } from "../../units/same-lift.ts";
import { distinctLifts } from "../math/lifts.ts";
import { exceeds } from "../math/limits.ts";
import { measuredPorts } from "../sweep/full-ports.ts";
import type { Finding, Formatters, JobRule, SideCheckInput } from "./check-input.ts";
import type { Deviation } from "./deviations.ts";
import { spotsOf, trendAt, withoutPoint } from "./trend.ts";

/** Two sides whose deviations differ by less than this share of them are off for one reason. */
const ALIKE = 0.35;
/** How near both sides have to come to their trends at the lift that is proposed. */
const TOLERANCE = 0.03;

/**
 * Both readings of a row off the trend in the same way: the lift was set or typed wrong, or the range of the row, and neither
 * reading is accused.
 * @source common practice
 */
export const wrongRow: JobRule = ({ sides, format }) =>
  sides
    .filter(({ side }) => side === "intake")
    .flatMap((intake) => {
      const exhaust = sides.find(
        (one) => one.side === "exhaust" && one.stage === intake.stage && one.set === intake.set,
      );
      if (exhaust === undefined) return [];
      return intake.deviations.flatMap((one): Finding[] => {
        const other = exhaust.deviations.find(({ point }) => isOneRow(point.reading, one.point.reading));
        return other && areAlike(one, other) ? [rowFinding([intake, one], [exhaust, other], format)] : [];
      });
    });

const isOneRow = ({ typed: a }: Reading, { typed: b }: Reading) =>
  a !== undefined && b !== undefined && a.liftAt.file === b.liftAt.file && a.liftAt.start === b.liftAt.start;

const ratioOf = ({ point, trend }: Deviation) => Math.log(point.flow / trend);

function areAlike(one: Deviation, other: Deviation): boolean {
  const [a, b] = [ratioOf(one), ratioOf(other)];
  return a * b > 0 && Math.abs(a - b) <= ALIKE * Math.max(Math.abs(a), Math.abs(b));
}

type Side = readonly [SideCheckInput, Deviation];

function rowFinding(intake: Side, exhaust: Side, format: Formatters): Finding {
  const [input, { point, share }] = intake;
  const { typed } = point.reading;
  const meant = likelyLift([intake, exhaust]);
  const way = ratioOf(intake[1]) > 0 ? "above" : "below";
  const least = Math.min(share, exhaust[1].share);
  const lift = typed?.lift ?? format.lift(point.lift);
  const range = point.run.bench.reads === "percent" ? "a wrong range, or " : "";
  return {
    code: "figures/wrong-row",
    message: `${[input.stage.name, ...(measuredPorts(input.sweep.points).length > 1 ? [`cylinder ${point.port}`] : [])].join(", ")} at ${lift}: intake and exhaust both lie ${format.percent(least)} or more ${way} the trend of their neighbours`,
    hint: meant === undefined ? `${range}a lift set or typed wrong: check the whole row` : `did you mean ${meant}?`,
    proposes: true,
    subject: { stage: input.stage.name, set: input.set, lift: point.lift },
    ...(typed === undefined ? {} : { at: typed.liftAt }),
  };
}

/** The lift, as it would have been typed, at which both readings lie on their trends. */
function likelyLift(both: readonly Side[]): string | undefined {
  const { typed, lift } = both[0]![1].point.reading;
  const digits = /^[\d.]+/.exec(typed?.lift ?? "")?.[0] ?? "";
  if (!(Number(digits) > 0)) return undefined;
  const scale = lift / Number(digits);
  const sides = both.map(([{ sweep }, { point }]) => ({
    flow: point.flow,
    others: withoutPoint(spotsOf(sweep.points.filter((one) => one.port === point.port)), point),
  }));
  return mistypings(digits).find((text) =>
    sides.every(({ flow, others }) => {
      const trend = trendAt(others, Number(text) * scale);
      const taken = others.some((one) => sameLift(one.lift, Number(text) * scale));
      return !taken && trend !== undefined && !exceeds(Math.abs(flow / trend - 1), TOLERANCE);
    }),
  );
}

/** A lift typed twice in two rows, one below the other, where the series of lifts misses one beside them. @source common practice */
export const liftTwice: JobRule = ({ model, format }) =>
  model.stages.flatMap((stage) =>
    stage.sets.flatMap(({ runs }) =>
      runs.flatMap((run) => {
        const side = run.readings.intake.length > 0 ? "intake" : "exhaust";
        return twiceIn(stage, run.readings[side], format);
      }),
    ),
  );

function twiceIn(stage: Stage, rows: readonly Reading[], format: Formatters): Finding[] {
  const lifts = distinctLifts(rows.map(({ lift }) => lift).toSorted((a, b) => a - b));
  const steps = lifts.slice(1).map((lift, k) => lift - lifts[k]!);
  const step = steps.toSorted((a, b) => a - b)[Math.floor((steps.length - 1) / 2)];
  if (step === undefined || lifts.length < 4) return [];
  const isMissing = (lift: number) =>
    lift > 0 && lift < lifts.at(-1)! && !lifts.some((one) => Math.abs(one - lift) < step * 0.4);
  return rows.slice(1).flatMap((second, k): Finding[] => {
    const first = rows[k]!;
    if (!sameLift(first.lift, second.lift) || second.typed === undefined || first.typed === undefined) return [];
    const [missing, wrong] = isMissing(second.lift + step)
      ? [second.lift + step, second]
      : isMissing(first.lift - step)
        ? [first.lift - step, first]
        : [undefined, first];
    if (missing === undefined) return [];
    const digits = /^[\d.]+/.exec(wrong.typed!.lift)?.[0] ?? "";
    const scale = wrong.lift / Number(digits);
    const decimals = digits.split(".")[1]?.length ?? 0;
    const meant = Number.isFinite(scale) ? (missing / scale).toFixed(decimals) : format.lift(missing);
    return [
      {
        code: "figures/lift-twice",
        message: `${stage.name}: ${wrong.typed!.lift} of lift is typed twice, and ${meant} is missing`,
        hint: `did you mean ${meant}?`,
        proposes: true,
        at: wrong.typed!.liftAt,
        subject: { stage: stage.name, lift: wrong.lift },
      },
    ];
  });
}
