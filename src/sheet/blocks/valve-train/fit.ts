import { springTravelCheck } from "../../cautions.ts";
import type { KeyRow, Part } from "../../content.ts";
import { type BlockBuilder, type Context, endStages } from "../../context.ts";
import { paragraph, presentItems, section } from "../../section.ts";
import { valvesOf } from "./valves.ts";

type Pair = KeyRow["pairs"][number];

/** The lift that the springs are set up for, what is left there, and how the head is delivered. */
export const setUpRow: BlockBuilder = (context, place) => {
  const { display, model } = context;
  const springs = endStages(context).last?.figures.springs;
  const lift = model.text.springsBySide ? undefined : model.text.springs?.setUpFor;
  const travel = springTravelCheck(context);
  const least = (key: "coil_bind_clearance_m" | "retainer_clearance_m") => {
    const own = valvesOf(context).flatMap((valve) => valve[key] ?? []);
    return own.length > 0
      ? { value: Math.min(...own), at: lift }
      : { value: springs?.[key], at: springs?.largest_lift_m };
  };
  const left = (label: string, key: Parameters<typeof least>[0]): Pair | undefined => {
    const { value, at } = least(key);
    if (value === undefined) return undefined;
    const note = at === undefined ? "calculated" : `at ${display.digits("lift", at)} †`;
    return { label, value: display.full("length", value), note };
  };
  const pairs = presentItems<Pair>([
    travel.kind === "set up" && { label: "Set up for valve lift up to", value: travel.lift },
    left("Least left to coil bind", "coil_bind_clearance_m"),
    left("Least retainer to seal", "retainer_clearance_m"),
    model.text.delivered && { label: "Delivered", value: model.text.delivered },
  ]);
  return section(place, undefined, pairs.length < 2 ? [] : [{ kind: "key-row", pairs }]);
};

/** Parts by us, and what was not done. */
export const fitted: BlockBuilder = (context, place) => section(place, undefined, fittedParts(context));

export function fittedParts({ model }: Context): readonly Part[] {
  const { parts, notDone } = model.text;
  const by = parts.map(({ part, quantity, note }) =>
    presentItems<string>([quantity && `${quantity} ×`, part, note && `(${note})`]).join(" "),
  );
  const sentence = (items: readonly string[]) => (items.length === 0 ? undefined : `${items.join("; ")}.`);
  const [ours, others] = [sentence(by), sentence(notDone)];
  if (!ours) return paragraph(others, "caption", "Not by us:");
  return paragraph(
    presentItems<string>([ours, others && `Not by us: ${others}`]).join(" "),
    "caption",
    "Fitted by us:",
  );
}

/** Who measured, who answers for it, and who fits it. */
export const fitSignatures: BlockBuilder = (context, place) => {
  const by = endStages(context).last?.stage.by;
  const name = context.model.shop.responsible;
  return section(place, undefined, [
    {
      kind: "signatures",
      labels: [
        { role: "Measured by, with date", ...(by ? { name: by } : {}) },
        { role: "For the shop, with date", ...(name ? { name } : {}) },
        { role: "Fitted by, with date" },
      ],
    },
  ]);
};
