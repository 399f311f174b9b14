import { fromSi } from "../../units/convert.ts";
import { formatNumber, withUnit } from "../../units/show.ts";
import { springTravel } from "../cautions.ts";
import type { Facts } from "../content.ts";
import { type BlockBuilder, endStages } from "../context.ts";
import { formatShortest } from "../display.ts";
import { presentItems, section } from "../section.ts";

/** Springs as set up, with the lift they were set up for and what is left to coil bind. */
export const springs: BlockBuilder = (context, place) => {
  const { display, model } = context;
  const stated = model.text.springs;
  const clear = endStages(context).last?.figures.springs;
  if (!stated && !clear) return [];
  const travel = springTravel(context);
  type Row = Facts["rows"][number];
  const fact = (label: string, value: string | false | undefined, note?: string): Row | undefined =>
    value ? { label, value, ...(note ? { note } : {}) } : undefined;
  const length = (value: number | undefined) => value !== undefined && formatShortest(display, "length", value);
  const force = (value: number | undefined) => value !== undefined && display.full("force", value);
  const rows = presentItems<Row>([
    clear &&
      fact(
        travel.kind === "room" && travel.lift !== undefined ? "Set up for valve lift up to" : "At valve lift",
        display.full("lift", clear.largest_lift_m),
      ),
    fact("Installed height", length(stated?.installedHeight)),
    fact("Force on the seat", force(stated?.seatForce)),
    fact(
      "Force open",
      force(stated?.openForce),
      stated?.openAt === undefined ? undefined : `at ${display.full("lift", stated.openAt)} lift`,
    ),
    // Grams in every shop: spring makers state no other unit, common practice.
    fact(
      "Mass",
      stated?.mass !== undefined && withUnit(formatNumber(fromSi(stated.mass, "mass", "g"), 0), "mass", "g"),
    ),
    fact("Height at coil bind", length(stated?.coilBind)),
    fact("Left to coil bind", length(clear?.coil_bind_clearance_m), "calculated, at that lift"),
    fact("Left from retainer to seal", length(clear?.retainer_clearance_m), "calculated, at that lift"),
  ]);
  return section(
    place,
    "Springs",
    rows.length === 0 ? [] : [{ kind: "facts", compact: true, rows: place.onePage ? rows.slice(0, 1) : rows }],
  );
};
