import type { ValveFigures } from "../../../figures/figures.ts";
import type { PlanValve } from "../../content.ts";
import { type BlockBuilder, type Context, endStages } from "../../context.ts";
import { paragraph, presentItems, section } from "../../section.ts";
import { capitalize, joinWords } from "../../words/text.ts";
import { lengthDigits, NOT_TAKEN, valveLabel, valvesOf } from "./valves.ts";

type PlanKey = "installed_height_m" | "shim_m" | "tip_m" | "drop_m";
const VALUES: readonly { readonly key: PlanKey; readonly name: string; readonly about: string }[] = [
  { key: "installed_height_m", name: "installed", about: "installed height with its shim" },
  { key: "shim_m", name: "shim", about: "" },
  { key: "tip_m", name: "tip", about: "tip above the spring seat" },
  { key: "drop_m", name: "drop", about: "drop below the deck" },
];

/** Every valve on a plan of the head, with what was set. */
export const headPlan: BlockBuilder = (context, place) => {
  const valves = valvesOf(context);
  const shown = VALUES.filter(({ key }) => valves.some((valve) => valve[key] !== undefined));
  if (shown.length === 0) return [];
  const cylinders = [...new Set(valves.map(({ cylinder }) => cylinder))].toSorted((a, b) => a - b);
  const digits = lengthDigits(
    context,
    valves.flatMap((valve) => shown.map(({ key }) => valve[key])),
  );
  const planValve = (valve: ValveFigures): PlanValve => ({
    label: `${valve.cylinder}${valve.letter ?? ""}`,
    side: valve.side === "intake" ? "in" : "ex",
    values: shown.map(({ key }) => {
      const value = valve[key];
      return {
        text: value === undefined ? NOT_TAKEN : digits(value),
        ...(key === "shim_m" ? { strong: true } : {}),
        ...(valve.not_alike.includes(key) ? { boxed: "not as its neighbours" } : {}),
      };
    }),
  });
  const of = (cylinder: number, side: ValveFigures["side"]) =>
    valves.filter((valve) => valve.cylinder === cylinder && valve.side === side).map(planValve);
  const { numbering } = context.model.text.head;
  const unit = UNIT_WORDS[context.display.unit("length")] ?? context.display.unit("length");
  return section(place, `Every valve, ${unit}`, [
    ...paragraph(planWords(context, shown, valves), "caption"),
    {
      kind: "head-plan",
      names: shown.map(({ name }) => name),
      cylinders: cylinders.map((cylinder) => ({ intake: of(cylinder, "intake"), exhaust: of(cylinder, "exhaust") })),
      ...(numbering ? { from: numbering } : {}),
    },
  ]);
};

const UNIT_WORDS: Readonly<Record<string, string>> = { in: "inches", mm: "millimetres", cm: "centimetres" };

function planWords(context: Context, shown: typeof VALUES, valves: readonly ValveFigures[]): string {
  const boxed = valves.some(({ not_alike }) => not_alike.length > 0);
  const gaps = valves.some((valve) => shown.some(({ key }) => valve[key] === undefined));
  return presentItems<string>([
    `${capitalize(presentItems<string>(shown.map(({ about }) => about)).join("; "))}.`,
    boxed && "Boxed: not as its neighbours.",
    ...dropWords(context, valves),
    gaps && "–: not measured.",
  ]).join(" ");
}

/** A valve whose face is off the median of its row, in words. */
function dropWords(context: Context, valves: readonly ValveFigures[]): readonly string[] {
  const spreads = endStages(context).last?.figures.valve_train?.spreads ?? [];
  const off = valves.filter(({ not_alike }) => not_alike.includes("drop_m"));
  const words = off.flatMap((valve) => {
    const row = spreads.find(({ side, value }) => side === valve.side && value === "drop_m");
    if (!row || valve.drop_m === undefined) return [];
    const by = valve.drop_m - row.median_m;
    return [
      `${valveLabel(valve)} sits ${context.display.full("length", Math.abs(by))} ${by > 0 ? "deeper" : "higher"} than its fellows`,
    ];
  });
  return words.length === 0 ? [] : [`${joinWords(words)}.`];
}
