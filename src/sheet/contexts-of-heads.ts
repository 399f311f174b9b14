import type { Head } from "../model/model.ts";
import type { Context } from "./context.ts";
import { presentItems } from "./section.ts";

/** A context for each head whose cylinders are stated, with its own valves and stamp; one for all where they are not. */
export function contextsOfHeads(context: Context): readonly Context[] {
  const { heads, head } = context.model.text;
  const valves = context.stages.flatMap(({ figures }) => figures.valve_train?.valves ?? []);
  const own = heads.filter(({ cylinders }) => valves.some(({ cylinder }) => cylinders.includes(cylinder)));
  if (own.length < 2) return [titled(context, heads.length === 1 ? heads[0]?.stamped : head.stamped)];
  return own.map((one) => titled(ofHead(context, one), one.stamped));
}

/** The head's stamp stands in its title: whoever fits it looks for that. */
function titled(context: Context, stamped: string | undefined): Context {
  const { model } = context;
  const title = presentItems<string>([model.identity.title, stamped]).join(", ");
  return { ...context, model: { ...model, identity: { ...model.identity, title } } };
}

function ofHead(context: Context, one: Head): Context {
  const { model } = context;
  const name = one.name ?? model.text.head.name ?? "Cylinder head";
  return {
    ...context,
    model: {
      ...model,
      identity: { ...model.identity, title: `${name} ${one.id}` },
      text: { ...model.text, heads: [one] },
    },
    stages: context.stages.map((stage) => {
      const { valve_train: all, ...figures } = stage.figures;
      const valves = all?.valves.filter(({ cylinder }) => one.cylinders.includes(cylinder)) ?? [];
      return { ...stage, figures: { ...figures, ...(all && { valve_train: { ...all, valves } }) } };
    }),
  };
}
