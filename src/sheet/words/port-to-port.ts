import type { PortToPort, SideFigures } from "../../figures/figures.ts";
import type { Display } from "../display.ts";
import { formatPercent } from "../display.ts";
import { cylindersWords } from "./identity.ts";
import { joinWords } from "./text.ts";

/** A port as a column's head or a row's name: "5", "5 end". */
export const portName = ({ cylinder, hand }: { readonly cylinder: number; readonly hand?: string }): string =>
  `${cylinder}${hand === undefined ? "" : ` ${hand}`}`;

/** The mean of the ports and how far they lie apart, beside what the bench alone would give; nothing where no lift is shared. */
export function spreadWords(ports: PortToPort, display: Display): string | undefined {
  const { mean_m3_s: mean, spread_ratio: spread, from_bench_ratio: bench } = ports;
  if (mean === undefined || spread === undefined) return undefined;
  const apart = `Mean over ${sharedLiftWords(ports, display)} ${display.full("flow", mean)}, highest less lowest ${formatPercent(spread)} of it.`;
  if (bench === undefined) return apart;
  return spread > bench
    ? `${apart} The bench alone would give ${formatPercent(bench)} at most.`
    : `${apart} The bench alone would give up to ${formatPercent(bench)}: no port differs clearly.`;
}

/** More lifts than this are told by their number and their ends. */
const MOST_LISTED = 4;

function sharedLiftWords(ports: PortToPort, display: Display): string {
  const { lifts_m: lifts } = ports;
  if (lifts.length === liftsOf(ports).length) return "all lifts";
  const digits = lifts.map((lift) => display.digits("lift", lift));
  const unit = `\u00a0${display.unit("lift")}`;
  if (lifts.length <= MOST_LISTED) return `${joinWords(digits)}${unit}`;
  return `the ${lifts.length} lifts that all have, ${digits[0]} to ${digits.at(-1)}${unit},`;
}

/** Lifts at which any port of the means was read. */
function liftsOf({ cylinders }: PortToPort): readonly number[] {
  const own = cylinders.filter(({ mean_m3_s }) => mean_m3_s !== undefined);
  return [...new Set(own.flatMap(({ readings }) => readings.map(({ lift_m }) => Math.round(lift_m * 1e6))))];
}

/** Ports that are not in the curve, and why. */
export function outsideWords({ port_to_port: ports, hand }: Pick<SideFigures, "port_to_port" | "hand">): string[] {
  if (ports === undefined) return [];
  const checks = ports.cylinders.filter((one) => one.hand === hand && !one.full).map(({ cylinder }) => cylinder);
  const others = ports.cylinders.filter((one) => one.hand !== hand);
  return [
    ...(checks.length === 0
      ? []
      : [
          `${cylindersWords(checks)}: ${checks.length === 1 ? "evenness check" : "evenness checks"}, not in the curve.`,
        ]),
    ...(others.length === 0
      ? []
      : [`Of another hand, not in the curve or the mean: ${joinWords(others.map(portName))}.`]),
  ];
}
