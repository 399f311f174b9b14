import { error } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { type SourceDocument, valueAt } from "../../parse/yaml/source-document.ts";
import type { Job } from "../schema/job.ts";
import { type Cells, readTextTable } from "../schema/text-table.ts";
import { parseValveName, VALVE_TRAIN_COLUMNS } from "../schema/valve-train.ts";
import { type JobRule, type RuleInput, type ShopRule, showLength } from "./rule.ts";
import { statedSprings } from "./springs.ts";

/** Values beyond which a slip of the hand or of the unit is likelier than the part [m]: common practice. */
const ODD = { guide: 0.25e-3, runout: 0.25e-3, shim: 4e-3, drop: 8e-3 } as const;
/** An installed height this far from the spring's stated one is odd, as a share: common practice. */
const HEIGHT_OFF = 0.15;

type Finding = { readonly cell: NonNullable<Cells[string]>; readonly said: Omit<Diagnostic, "at"> };

/** Each table of the valve train: what is impossible is refused, what is odd is told once a column. */
export const valveTrain: JobRule = (input) =>
  (input.job.stages ?? []).flatMap((stage, index) => {
    const path = ["stages", index, "valve_train"] as const;
    const text = valueAt(input.located.value, path);
    if (stage.valve_train === undefined || typeof text !== "string") return [];
    const { rows } = readTextTable(text, VALVE_TRAIN_COLUMNS, input.units);
    const found = [...findSolidSprings(rows, input), ...findOddValues(rows, input), ...findStrangers(rows, input)];
    return found.map(({ cell, said }) => ({ ...said, at: input.located.textSpan(path, cell.at.start, cell.at.end) }));
  });

/** A spring that is solid, or loose, with the valve shut. */
function findSolidSprings(rows: readonly Cells[], { job, units }: RuleInput): readonly Finding[] {
  return rows.flatMap((row): Finding[] => {
    const { height, valve } = row;
    const name = parseValveName(valve?.words ?? "");
    if (height?.value === undefined || !name) return [];
    const own = statedSprings(job).find(({ side }) => side === undefined || side === name.side)?.springs;
    const solid = own?.coil_bind;
    // A spring that is solid at its own stated height is told there.
    if (solid !== undefined && height.value <= solid && !(own!.installed_height! <= solid)) {
      const message = `the spring of \`${valve!.words}\` would be solid: it binds at ${showLength(solid, units)}`;
      const hint = "check the height, its unit, and `coil_bind` of the springs";
      return [{ cell: height, said: { severity: "error", code: "job/coil-bind", message, hint } }];
    }
    return [];
  });
}

function findOddValues(rows: readonly Cells[], { job, units }: RuleInput): readonly Finding[] {
  const columns = Object.entries(ODD).flatMap(([key, most]): Finding[] => {
    const odd = rows.flatMap((row) => (Math.abs(row[key]?.value ?? 0) > most ? [row[key]!] : []));
    const [first] = odd;
    if (!first) return [];
    const message = `a ${key} of ${showLength(first.value!, units)} is far out of what heads have`;
    const note = odd.length > 1 ? { note: `and ${odd.length - 1} more of this column` } : {};
    const hint = "check the number and the unit of the column, such as `guide/mm`";
    return [{ cell: first, said: { severity: "warning", code: "job/valve-train-odd", message, hint, ...note } }];
  });
  const heights = rows.flatMap((row): NonNullable<Cells[string]>[] => {
    const side = parseValveName(row.valve?.words ?? "")?.side;
    const stated = statedSprings(job).find((one) => one.side === undefined || one.side === side)?.springs;
    const fitted = stated?.installed_height;
    if (row.height?.value === undefined || fitted === undefined) return [];
    if (stated?.coil_bind !== undefined && row.height.value <= stated.coil_bind) return [];
    return Math.abs(row.height.value / fitted - 1) > HEIGHT_OFF ? [row.height] : [];
  });
  const [height] = heights;
  if (!height) return columns;
  const message = `a height of ${showLength(height.value!, units)} is more than 15 % off the springs' \`installed_height\``;
  const note = heights.length > 1 ? { note: `and ${heights.length - 1} more of this column` } : {};
  const hint = "check for swapped digits; height is that of the spring as fitted, its shim in place";
  return [
    ...columns,
    { cell: height, said: { severity: "warning", code: "job/valve-train-odd", message, hint, ...note } },
  ];
}

/** A valve of a cylinder that the engine has not. */
function findStrangers(rows: readonly Cells[], { job }: RuleInput): readonly Finding[] {
  const most = job.engine?.cylinders;
  const stranger = rows.find((row) => (parseValveName(row.valve?.words ?? "")?.cylinder ?? 0) > (most ?? 99));
  if (!stranger || most === undefined) return [];
  const message = `\`${stranger.valve!.words}\` is of a cylinder that an engine of ${most} has not`;
  const hint = "check the valve's name, and `cylinders` of the engine";
  return [{ cell: stranger.valve!, said: { severity: "warning", code: "job/valve-name", message, hint } }];
}

/** The lesser of two limits stands first. */
export const valveTrainLimits: JobRule = ({ job, located }) => checkLimits(job.valve_train_limits, located);
export const limitsOfShop: ShopRule = ({ shop, located }) => checkLimits(shop.valve_train_limits, located);

const checkLimits = (limits: Job["valve_train_limits"], located: SourceDocument): readonly Diagnostic[] =>
  (["seat_force", "open_force"] as const).flatMap((key) => {
    const [least, most] = limits?.[key] ?? [];
    if (least === undefined || most === undefined || least <= most) return [];
    const at = located.span(["valve_train_limits", key]);
    return [
      error("job/limit-order", `the limits of \`${key}\` are the wrong way round`, at, {
        hint: "write the lesser first",
      }),
    ];
  });
