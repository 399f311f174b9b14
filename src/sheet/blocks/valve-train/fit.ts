import { springTravelCheck } from "../../cautions.ts";
import type { KeyRow } from "../../content.ts";
import { type BlockBuilder, endStages } from "../../context.ts";
import { paragraph, presentItems, section } from "../../section.ts";
import { valvesOf } from "./valves.ts";

type Pair = KeyRow["pairs"][number];

/** The lift that the springs are set up for, what is left there, and how the head is delivered. */
export const setUpRow: BlockBuilder = (context, place) => {
  const { display, model } = context;
  const springs = endStages(context).last?.figures.springs;
  const { intake, exhaust } = endStages(context).last?.figures.valve_train?.springs ?? {};
  const lifts = [intake?.set_up_lift_m, exhaust?.set_up_lift_m].flatMap((one) => one ?? []);
  const lift = model.text.springsBySide ? undefined : model.text.springs?.setUpFor;
  const setUp =
    lift !== undefined
      ? display.full("lift", lift)
      : lifts.length === 2
        ? `in ${display.digits("lift", lifts[0]!)}, ex ${display.full("lift", lifts[1]!)}`
        : undefined;
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
    setUp !== undefined &&
      springTravelCheck(context).kind === "set up" && { label: "Set up for valve lift up to", value: setUp },
    left("Least left to coil bind", "coil_bind_clearance_m"),
    left("Least retainer to seal", "retainer_clearance_m"),
    model.text.delivered && { label: "Delivered", value: model.text.delivered },
  ]);
  return section(place, undefined, pairs.length < 2 ? [] : [{ kind: "key-row", pairs }]);
};

/** Parts by us, and what was not done. */
export const fitted: BlockBuilder = (context, place) => {
  const { parts, notDone } = context.model.text;
  const by = parts.map(({ part, quantity, note }) =>
    presentItems<string>([quantity && `${quantity} ×`, part, note && `(${note})`]).join(" "),
  );
  const not = notDone.length === 0 ? undefined : `${notDone.join("; ")}.`;
  if (by.length === 0) return section(place, undefined, paragraph(not, "caption", "Not by us:"));
  const text = presentItems<string>([`${by.join("; ")}.`, not && `Not by us: ${not}`]).join(" ");
  return section(place, undefined, paragraph(text, "caption", "Fitted by us:"));
};

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
