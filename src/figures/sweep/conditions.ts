import type { Bench, DisplayUnits, FlowSet, Side } from "../../model/model.ts";
import { show } from "../../units/show.ts";

type Condition = {
  readonly name: string;
  readonly text: string;
  /** What is compared, where two texts mean one condition. */
  readonly key?: string;
};

/**
 * Differences between the conditions of two sets on one side, each as a phrase: condition, then both values.
 *
 *     one phrase for each condition that is stated differently
 *
 * Air is no condition: it is corrected for, or the meter cancels it.
 *
 * @param from   one set
 * @param to     the other
 * @param side   intake or exhaust: an entry matters to the intake only, a pipe to the exhaust
 * @param units  units of the sheet
 * @returns      the phrases; empty for like sets
 * @source       common practice: what must be alike before two sweeps are compared
 * @example      conditionDifferences({ bench: { testPressure: 7000, attached: {}, intakeEntry: "none" } }, { bench: { testPressure: 7000, attached: {}, intakeEntry: "clay" } }, "intake", { pressure: "Pa" }) // ["entry none against clay"]
 */
export function conditionDifferences(
  from: Pick<FlowSet, "bench">,
  to: Pick<FlowSet, "bench">,
  side: Side,
  units: DisplayUnits,
): string[] {
  if (from.bench === to.bench) return [];
  const before = conditionsOf(from.bench, side, units);
  return conditionsOf(to.bench, side, units).flatMap((one, k) => {
    const other = before[k]!;
    return areLike(other, one) ? [] : [`${one.name} ${other.text} against ${one.text}`];
  });
}

/**
 * Whether two sets were measured under like conditions, on whatever bench.
 *
 *     no condition but the bench is stated differently
 *
 * @param from   one set
 * @param to     the other
 * @param side   intake or exhaust
 * @param units  units of the sheet
 * @returns      true for like conditions
 * @source       common practice: what must be alike before two sweeps are judged
 * @example      haveLikeConditions({ bench: { name: "1", testPressure: 7000, attached: {} } }, { bench: { name: "2", testPressure: 7000, attached: {} } }, "intake", { pressure: "Pa" }) // true
 */
export function haveLikeConditions(
  from: Pick<FlowSet, "bench">,
  to: Pick<FlowSet, "bench">,
  side: Side,
  units: DisplayUnits,
): boolean {
  const on = ({ bench }: Pick<FlowSet, "bench">) => ({ bench: { ...bench, name: undefined } });
  return conditionDifferences(on(from), on(to), side, units).length === 0;
}

/**
 * Conditions of a set that differ from the leading set, as phrases.
 *
 *     one phrase for each condition of either side that is stated differently
 *
 * @param leading  the set that leads
 * @param other    the set
 * @param units    units of the sheet
 * @returns        the phrases, intake's first; none twice
 * @source         common practice
 * @example        distinctConditions({ bench: { testPressure: 7000, attached: {} } }, { bench: { testPressure: 7000, attached: { intake: "manifold" } } }, { pressure: "Pa" }) // ["on the intake manifold"]
 */
export function distinctConditions(
  leading: Pick<FlowSet, "bench">,
  other: Pick<FlowSet, "bench">,
  units: DisplayUnits,
): string[] {
  const phrases = (["intake", "exhaust"] as const).flatMap((side) => {
    const lead = conditionsOf(leading.bench, side, units);
    return conditionsOf(other.bench, side, units).flatMap((one, k) =>
      areLike(lead[k]!, one) ? [] : [`${one.name} ${one.text}`],
    );
  });
  return [...new Set(phrases)];
}

const areLike = (one: Condition, other: Condition): boolean => (one.key ?? one.text) === (other.key ?? other.text);

function conditionsOf(bench: Bench, side: Side, units: DisplayUnits): Condition[] {
  const { boreFixture, intakeEntry, attached } = bench;
  const common = [
    { name: "test pressure", text: show(bench.testPressure, "pressure", units.pressure) },
    {
      name: "bore fixture",
      text: boreFixture === undefined ? "not stated" : show(boreFixture, "length", units.length),
    },
    { name: `on the ${side}`, text: attached[side] ?? "none stated" },
    { name: "leakage", text: bench.leakage?.[side] === undefined ? "not taken off" : "taken off" },
  ];
  if (side === "intake") return [...common, { name: "entry", text: intakeEntry ?? "not stated" }, describeBench(bench)];
  return [...common, describePipe(bench, units), describeBench(bench)];
}

function describeBench({ name }: Bench): Condition {
  return { name: "bench", text: name ?? "not named" };
}

/** No pipe is one condition, whether it was typed or only not stated. */
function describePipe({ exhaustPipe: pipe, noExhaustPipe }: Bench, units: DisplayUnits): Condition {
  const name = "exhaust pipe";
  if (pipe === undefined) return { name, text: noExhaustPipe ? "none" : "none stated", key: "" };
  // Trailing zeros are dropped: a pipe is cut to a round length.
  const size = (value: number | undefined) =>
    value === undefined
      ? "?"
      : show(value, "length", units.length).replace(/\.0+(?=\D*$)|(?<=\.\d*[1-9])0+(?=\D*$)/u, "");
  return { name, text: `${size(pipe.diameter)} × ${size(pipe.length)}` };
}
