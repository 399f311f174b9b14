import type { ValveFigures } from "../../../figures/figures.ts";
import type { Part, Table, TableCell } from "../../content.ts";
import { type BlockBuilder, type Context, endStages } from "../../context.ts";
import { presentItems, section } from "../../section.ts";
import { lengthDigits, NOT_TAKEN, valveLabel, valvesOf } from "./valves.ts";

/** A check: its name, each valve's result, and the shop's limit. */
type Check = {
  readonly keys: readonly (keyof ValveFigures)[];
  readonly name: string;
  readonly text: (valve: ValveFigures) => string | undefined;
  readonly limit: string;
  /** The least of all stands in the key row: on a page with little room it stands only where a valve is beyond the limit. */
  readonly onlyBeyond?: boolean;
};

/** Columns of a table that stay apart at 9 pt. */
const MOST_COLUMNS = 8;

/** What was checked of each valve, and the shop's limits: a row a check, a column a valve. */
export const valveChecks: BlockBuilder = (context, place) => {
  const valves = valvesOf(context);
  const checks = checksOf(context, valves).filter(
    ({ text, keys, onlyBeyond }) =>
      valves.some((valve) => text(valve) !== undefined) &&
      (!onlyBeyond ||
        valves.length > MOST_COLUMNS ||
        valves.some(({ beyond_limit }) => keys.some((key) => beyond_limit.includes(key)))),
  );
  if (checks.length === 0) return [];
  const groups = groupValves(valves);
  const tables = groups.map((group, i) =>
    checkTable(group, checks, i === groups.length - 1 ? notes(context, valves) : []),
  );
  return section(place, undefined, tables);
};

/** One table up to eight valves, else the sides apart. */
function groupValves(valves: readonly ValveFigures[]): readonly (readonly ValveFigures[])[] {
  if (valves.length <= MOST_COLUMNS) return [valves];
  return (["intake", "exhaust"] as const).flatMap((side) => {
    const own = valves.filter((valve) => valve.side === side);
    const tables = Math.ceil(own.length / MOST_COLUMNS);
    const columns = Math.ceil(own.length / Math.max(1, tables));
    return Array.from({ length: tables }, (_, i) => own.slice(i * columns, (i + 1) * columns));
  });
}

function checkTable(valves: readonly ValveFigures[], checks: readonly Check[], own: readonly string[]): Part {
  const limited = checks.some(({ limit }) => limit !== "");
  const cell = (check: Check, valve: ValveFigures): TableCell => {
    const text = check.text(valve) ?? NOT_TAKEN;
    const beyond = check.keys.some((key) => valve.beyond_limit.includes(key));
    return beyond ? { text, strong: true, boxed: "beyond our limit" } : { text };
  };
  const table: Table = {
    kind: "table",
    columns: [
      { title: "Checked", align: "left" },
      ...valves.map((valve) => ({ title: valveLabel(valve), align: "right" as const })),
      ...(limited ? [{ title: "our limit", align: "right" as const }] : []),
    ],
    rows: checks.map((check) => [
      { text: check.name },
      ...valves.map((valve) => cell(check, valve)),
      ...(limited ? [{ text: check.limit, quiet: true }] : []),
    ]),
    rowHeads: true,
    fifths: false,
    notes: own,
  };
  return table;
}

function checksOf(context: Context, valves: readonly ValveFigures[]): readonly Check[] {
  const { display, model } = context;
  const { valveTrainLimits: limits } = model.text;
  const { last } = endStages(context);
  const lift = Object.values(last?.figures.valve_train?.springs ?? {}).flatMap((one) => one.set_up_lift_m ?? []);
  const at = new Set(lift).size === 1 ? display.digits("lift", lift[0]!) : "set-up lift";
  const [force, unit] = [display.unit("force"), display.unit("length")];
  const range = (pair: readonly [number, number] | undefined) =>
    pair === undefined ? "" : `${display.digits("force", pair[0])} to ${display.digits("force", pair[1])}`;
  const forceCheck = (key: "seat_force_N" | "set_up_force_N", name: string, limit: string): Check => ({
    keys: [key],
    name: `${name}, ${force} †`,
    text: (valve) => (valve[key] === undefined ? undefined : display.digits("force", valve[key])),
    limit,
  });
  const lengthCheck = (key: LengthKey, name: string, limit: number | undefined, least: boolean): Check => {
    const digits = lengthDigits(context, [...valves.map((valve) => valve[key]), limit], !least);
    return {
      keys: [key],
      name: `${name}, ${unit}${key.endsWith("clearance_m") && least ? " †" : ""}`,
      text: (valve) => (valve[key] === undefined ? undefined : digits(valve[key])),
      limit: limit === undefined ? "" : `${least ? "at least " : ""}${digits(limit)}`,
      onlyBeyond: least,
    };
  };
  return [
    forceCheck("seat_force_N", "Force on the seat", range(limits.seatForce)),
    forceCheck("set_up_force_N", `Force open at ${at}`, range(limits.openForce)),
    lengthCheck("coil_bind_clearance_m", `Left to coil bind at ${at}`, limits.coilBind, true),
    lengthCheck("retainer_clearance_m", `Retainer to seal at ${at}`, limits.retainerToSeal, true),
    lengthCheck("guide_clearance_m", "Guide clearance", limits.guide, false),
    lengthCheck("seat_runout_m", "Seat runout", limits.runout, false),
    {
      keys: ["vacuum", "vacuum_Pa"],
      name: `Vacuum${last?.stage.vacuumTest ? `, ${last.stage.vacuumTest}` : ""}`,
      text: ({ vacuum, vacuum_Pa: pressure }) =>
        vacuum ?? (pressure === undefined ? undefined : display.full("barometer", pressure, 0)),
      limit: valves.some(({ vacuum }) => vacuum !== undefined) ? "held" : "",
    },
  ];
}

type LengthKey = "coil_bind_clearance_m" | "retainer_clearance_m" | "guide_clearance_m" | "seat_runout_m";

/** What a box means and what was agreed about it; which numbers are calculated; spreads and gaps. */
function notes(context: Context, valves: readonly ValveFigures[]): readonly string[] {
  const { agreed } = context.model.text;
  const boxed = valves.filter(({ beyond_limit }) => beyond_limit.length > 0);
  const springs = endStages(context).last?.figures.valve_train?.springs;
  const calculated = valves.some(({ seat_force_N, coil_bind_clearance_m, retainer_clearance_m }) =>
    [seat_force_N, coil_bind_clearance_m, retainer_clearance_m].some((value) => value !== undefined),
  );
  const fromForces = Object.values(springs ?? {}).some(({ rate_from }) => rate_from === "forces");
  const said = agreed.filter((words) => !context.withheld.names(words));
  return [
    presentItems<string>([
      boxed.length > 0 && "Boxed: beyond our limit.",
      ...(boxed.length > 0 ? said.map((words) => (/[.!?]$/.test(words) ? words : `${words}.`)) : []),
      calculated && "†\u00a0Calculated, springs taken as linear.",
      fromForces && "Rate from the two stated forces.",
    ]).join(" "),
  ].filter((text) => text !== "");
}
