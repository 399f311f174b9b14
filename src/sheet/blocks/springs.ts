import type { Springs } from "../../model/model.ts";
import { fromSi } from "../../units/convert.ts";
import { formatNumber, withUnit } from "../../units/show.ts";
import { springTravelCheck } from "../cautions.ts";
import type { Facts } from "../content.ts";
import { type BlockBuilder, endStages } from "../context.ts";
import { formatShortest } from "../display.ts";
import { presentItems, section } from "../section.ts";
import { eachSide, rateWords } from "./valve-train/springs-deck.ts";

/** Springs with the lift that the shop set them up for, and what is left to coil bind at the largest lift that is known. */
export const springs: BlockBuilder = (context, place) => {
  const { display, model } = context;
  const { springs: stated, springsBySide: bySide } = model.text;
  const clear = endStages(context).last?.figures.springs;
  if (!stated && !clear) return [];
  type Row = Facts["rows"][number];
  const fact = (label: string, value: string | false | undefined, note?: string): Row | undefined =>
    value ? { label, value, ...(note ? { note } : {}) } : undefined;
  const length = (value: number | undefined) => value !== undefined && formatShortest(display, "length", value);
  const force = (value: number | undefined) => value !== undefined && display.full("force", value);
  const both = (of: (one: Springs) => string | false | undefined) =>
    bySide ? eachSide(of(bySide.intake) || undefined, of(bySide.exhaust) || undefined) : stated && of(stated);
  const travel = springTravelCheck(context);
  const setUp =
    travel.kind === "unchecked" || travel.kind === "no room"
      ? undefined
      : fact("Set up for valve lift up to", travel.lift);
  const at = clear && (bySide ? "calculated" : `calculated, at ${display.full("lift", clear.largest_lift_m)} lift`);
  const rows = presentItems<Row>([
    setUp,
    fact(
      "Spring",
      both(({ part }) => part),
    ),
    fact(
      "Installed height",
      both(({ installedHeight }) => length(installedHeight)),
    ),
    fact(
      "Rate",
      both((one) => rateWords(context, one.rate)),
    ),
    fact(
      "Force on the seat",
      both(({ seatForce }) => force(seatForce)),
    ),
    fact(
      "Force open",
      both(({ openForce }) => force(openForce)),
      stated?.openAt === undefined ? undefined : `at ${display.full("lift", stated.openAt)} lift`,
    ),
    // Grams in every shop: spring makers state no other unit, common practice.
    fact(
      "Mass",
      stated?.mass !== undefined && withUnit(formatNumber(fromSi(stated.mass, "mass", "g"), 0), "mass", "g"),
    ),
    fact(
      "Height at coil bind",
      both(({ coilBind }) => length(coilBind)),
    ),
    fact("Left to coil bind", length(clear?.coil_bind_clearance_m), at),
    fact("Left from retainer to seal", length(clear?.retainer_clearance_m), at),
  ]);
  const shown = place.onePage ? presentItems<Row>([setUp]) : rows;
  return section(place, "Springs", shown.length === 0 ? [] : [{ kind: "facts", compact: true, rows: shown }]);
};
