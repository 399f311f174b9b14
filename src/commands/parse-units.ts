import { didYouMean } from "../diagnostics/did-you-mean.ts";
import { IMPERIAL, METRIC } from "../model/display-units.ts";
import type { DisplayUnits } from "../model/model.ts";
import { acceptedUnits, findUnit } from "../units/table.ts";
import { UsageError } from "./environment.ts";

/** Unlike the default of a metric job, `metric` includes flow and pressure. */
const UNIT_SYSTEMS: Readonly<Record<"imperial" | "metric", DisplayUnits>> = {
  imperial: IMPERIAL,
  metric: { ...METRIC, flow: "l/s", pressure: "kPa" },
};

/** Parses display units: `imperial`, `metric`, or pairs such as `flow=l/s,length=mm`. */
export function parseUnits(text: string): Partial<DisplayUnits> {
  if (text === "imperial" || text === "metric") return UNIT_SYSTEMS[text];
  const pairs = text.split(",").map((pair) => pair.trim().split("="));
  const units: Record<string, string> = {};
  for (const [kind = "", name = ""] of pairs) {
    if (!isKind(kind)) {
      const near = didYouMean(kind, [...Object.keys(UNIT_SYSTEMS), ...Object.keys(UNIT_SYSTEMS.metric)]);
      throw new UsageError(
        `--units takes imperial, metric, or pairs such as flow=l/s,length=mm; \`${kind}\` is neither${near ? ` (did you mean \`${near}\`?)` : ""}`,
      );
    }
    const unit = findUnit(kind, name.trim());
    if (!unit)
      throw new UsageError(`--units: \`${name}\` is not a unit of ${kind}; it is one of ${acceptedUnits(kind)}`);
    units[kind] = unit.name;
  }
  return units;
}

const isKind = (kind: string): kind is keyof DisplayUnits => Object.hasOwn(UNIT_SYSTEMS.metric, kind);
