import type { BlockBuilder } from "../context.ts";
import { said, section } from "../section.ts";

type Step = { readonly lead: string; readonly text: string };

/** What comes next, as the engine goes together. */
export const nextSteps: BlockBuilder = ({ model: { text, identity, engine } }, place) => {
  if (identity.kind === "product") return [];
  const bare = text.delivered === "bare";
  const steps = said<Step>([
    bare && { lead: "Valves and springs:", text: "fit and set up for your cam." },
    { lead: "Pistons:", text: "measure valve to piston by turning the engine by hand." },
    {
      lead: "Gasket:",
      text: engine?.gasket
        ? "use the thickness and bore stated to us, or ask again."
        : "tell us its bore and thickness; compression depends on it.",
    },
    { lead: "Fuel and ignition:", text: "set afresh, starting from the safe side." },
    { lead: "Tightening:", text: "follow the engine maker's order and figures." },
  ]);
  return section(place, "What comes next", [{ kind: "list", compact: true, items: steps }]);
};
