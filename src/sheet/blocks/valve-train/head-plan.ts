import type { ValveFigures } from "../../../figures/figures.ts";
import type { PlanValve } from "../../content.ts";
import { type BlockBuilder, type Context, endStages } from "../../context.ts";
import { paragraph, presentItems, section } from "../../section.ts";
import { capitalize } from "../../words/text.ts";
import { lengthWords } from "./valve-cuts.ts";
import { lengthDigits, NOT_TAKEN, unitWord, valvesOf } from "./valves.ts";

type PlanKey = "installed_height_m" | "shim_m" | "tip_m" | "drop_m";
const VALUES: readonly {
  readonly key: PlanKey;
  readonly name: string;
  readonly about: string;
  readonly spread: string;
}[] = [
  { key: "installed_height_m", name: "installed", about: "installed height with its shim", spread: "heights" },
  { key: "shim_m", name: "shim", about: "", spread: "" },
  { key: "tip_m", name: "tip", about: "tip above the spring seat", spread: "tips" },
  { key: "drop_m", name: "drop", about: "drop below the deck", spread: "drops" },
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
  return section(place, `Every valve, ${unitWord(context)}`, [
    ...paragraph(planWords(context, shown, valves), "caption"),
    {
      kind: "head-plan",
      names: shown.map(({ name }) => name),
      cylinders: cylinders.map((cylinder) => ({ intake: of(cylinder, "intake"), exhaust: of(cylinder, "exhaust") })),
      ...(numbering ? { from: numbering } : {}),
    },
  ]);
};

function planWords(context: Context, shown: typeof VALUES, valves: readonly ValveFigures[]): string {
  const boxed = valves.some(({ not_alike }) => not_alike.length > 0);
  const gaps = valves.some((valve) => shown.some(({ key }) => valve[key] === undefined));
  return presentItems<string>([
    `${capitalize(presentItems<string>(shown.map(({ about }) => about)).join("; "))}.`,
    boxed && "Boxed: not as its neighbours.",
    gaps && "–: not measured.",
    spreadWords(context, shown),
  ]).join(" ");
}

/** How far apart the lowest and the highest valve of a side are, of the side where they are further apart. */
function spreadWords(context: Context, shown: typeof VALUES): string | undefined {
  const spreads = endStages(context).last?.figures.valve_train?.spreads ?? [];
  const words = shown.flatMap(({ key, spread }) => {
    const own = spreads.filter(({ value }) => value === key).map(({ low_m: low, high_m: high }) => high - low);
    return spread === "" || own.length === 0 ? [] : [`${spread} ${lengthWords(context, Math.max(...own))}`];
  });
  return words.length === 0 ? undefined : `Spread of a side at most: ${words.join(", ")}.`;
}
