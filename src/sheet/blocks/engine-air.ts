import type { EngineFigures } from "../../figures/figures.ts";
import { formatNumber } from "../../units/show.ts";
import type { TableCell, TableColumn } from "../content.ts";
import { type BlockBuilder, endStages } from "../context.ts";
import { EMPTY_CELL } from "../flow-columns.ts";
import { type OtherEngine, otherEngines } from "../other-engines.ts";
import { paragraph, presentItems, section } from "../section.ts";
import { airPowerWords } from "../words/engine.ts";
import { joinWords } from "../words/text.ts";

/** Rows of the table, at most: a grid of engine speeds is longer than anyone reads. */
const MOST_ROWS = 8;

/** The engine's demand for air: piston speed and inlet Mach index; for the engine builder only. */
export const engineAir: BlockBuilder = (context, place) => {
  const { display } = context;
  const { last } = endStages(context);
  const engine = last?.figures.engine;
  // Side 1 and single pages are for the customer: nothing here is for him.
  if (!last || !engine || place.page === 1 || place.onePage) return [];
  const others = otherEngines(context).filter(({ engine: other }) => other.inlet_mach_index.length > 0);
  const every = Math.max(1, Math.ceil(engine.mean_piston_speed.length / MOST_ROWS));
  const speeds = engine.mean_piston_speed.filter((_, i) => i % every === 0);
  const z = (rpm: number) => [engine, ...others.map(({ engine: other }) => other)].map((one) => indexCell(one, rpm));
  const hasZ = engine.inlet_mach_index.length > 0;
  const limit = joinNamed(engine, others, ({ z_limit_rpm: speed }) =>
    speed === undefined ? undefined : formatRpm(speed),
  );
  const notes = presentItems<string>([
    hasZ && "Calculated. Inlet Mach index: demand for air against what the valve passes over its open period.",
    engine.inlet_mach_index_from_lift_only &&
      "Lift was taken as a raised cosine; the index does not depend on duration then.",
    limit && `The index reaches 0.6 at about ${limit}.`,
  ]);
  const power = joinNamed(engine, otherEngines(context), ({ supported_power_W: watts }) =>
    watts === undefined ? undefined : display.full("power", watts),
  );
  return section(place, "Air for the engine", [
    ...(speeds.length > 0
      ? ([
          {
            kind: "table",
            columns: [
              { title: "Engine speed", unit: "rpm", align: "decimal" },
              { title: "Mean piston speed", unit: display.unit("speed"), align: "decimal" },
              ...(hasZ ? indexColumns(last.name, others) : []),
            ],
            ...(hasZ && others.length > 0
              ? {
                  groups: [
                    { text: "", span: 2 },
                    { text: "Inlet Mach index", span: 1 + others.length },
                  ],
                }
              : {}),
            rows: speeds.map(({ rpm, velocity_m_s }) => [
              { text: formatNumber(rpm, 0) },
              { text: display.digits("speed", velocity_m_s) },
              ...(hasZ ? z(rpm) : []),
            ]),
            rowHeads: true,
            fifths: true,
            notes,
          },
        ] as const)
      : paragraph(notes.join(" "), "caption")),
    ...paragraph(power && airPowerWords(power)),
  ]);
};

/** Engine speeds to the nearest hundred: the index is no finer. */
const formatRpm = (speed: number) => `${formatNumber(Math.round(speed / 100) * 100, 0)} rpm`;

function indexCell({ inlet_mach_index: index }: EngineFigures, rpm: number): TableCell {
  const found = index.find((item) => item.rpm === rpm);
  return found ? { text: formatNumber(found.z, 2) } : EMPTY_CELL;
}

/** The index of this head, and of others under their labels. */
const indexColumns = (name: string, others: readonly OtherEngine[]): readonly TableColumn[] =>
  others.length === 0
    ? [{ title: "Inlet Mach index", align: "decimal" }]
    : [name, ...others.map(({ label }) => label)].map((title) => ({ title, align: "decimal" }));

/** A value of this head, then those of the others by name; nothing where this head has none. */
function joinNamed(
  own: EngineFigures,
  others: readonly OtherEngine[],
  show: (engine: EngineFigures) => string | undefined,
): string | undefined {
  const value = show(own);
  const named = others.flatMap(({ label, engine }) => {
    const other = show(engine);
    return other === undefined ? [] : [`${other} with ${label}`];
  });
  return value === undefined ? undefined : joinWords([value, ...named]);
}
