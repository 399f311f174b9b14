import { formatNumber } from "../../units/show.ts";
import type { TableCell } from "../content.ts";
import { type BlockBuilder, endStages } from "../context.ts";
import { EMPTY_CELL } from "../flow-columns.ts";
import { paragraph, presentItems, section } from "../section.ts";
import { airPowerWords } from "../words/engine.ts";

/** Rows of the table, at most: a grid of engine speeds is longer than anyone reads. */
const MOST_ROWS = 8;

/** The engine's demand for air: piston speed and inlet Mach index; for the engine builder only. */
export const engineAir: BlockBuilder = (context, place) => {
  const { display } = context;
  const { last } = endStages(context);
  const engine = last?.figures.engine;
  // Side 1 and single pages are for the customer: nothing here is for him.
  if (!engine || place.page === 1 || place.onePage) return [];
  const every = Math.max(1, Math.ceil(engine.mean_piston_speed.length / MOST_ROWS));
  const speeds = engine.mean_piston_speed.filter((_, i) => i % every === 0);
  const z = (rpm: number): TableCell => {
    const found = engine.inlet_mach_index.find((item) => item.rpm === rpm);
    return found ? { text: formatNumber(found.z, 2) } : EMPTY_CELL;
  };
  const hasZ = engine.inlet_mach_index.length > 0;
  const notes = presentItems<string>([
    hasZ && "Calculated. Inlet Mach index: demand for air against what the valve passes over its open period.",
    engine.inlet_mach_index_from_lift_only &&
      "Lift was taken as a raised cosine; the index does not depend on duration then.",
    engine.z_limit_rpm !== undefined &&
      `The index reaches 0.6 at about ${formatNumber(Math.round(engine.z_limit_rpm / 100) * 100, 0)} rpm.`,
  ]);
  const power =
    engine.supported_power_W === undefined ? undefined : airPowerWords(display.full("power", engine.supported_power_W));
  return section(place, "Air for the engine", [
    ...(speeds.length > 0
      ? ([
          {
            kind: "table",
            columns: [
              { title: "Engine speed", unit: "rpm", align: "decimal" },
              { title: "Mean piston speed", unit: display.unit("speed"), align: "decimal" },
              ...(hasZ ? ([{ title: "Inlet Mach index", align: "decimal" }] as const) : []),
            ],
            rows: speeds.map(({ rpm, velocity_m_s }) => [
              { text: formatNumber(rpm, 0) },
              { text: display.digits("speed", velocity_m_s) },
              ...(hasZ ? [z(rpm)] : []),
            ]),
            rowHeads: true,
            fifths: true,
            notes,
          },
        ] as const)
      : paragraph(notes.join(" "), "caption")),
    ...paragraph(power),
  ]);
};
