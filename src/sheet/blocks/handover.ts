import { springTravelCheck } from "../cautions.ts";
import type { BlockBuilder, Context } from "../context.ts";
import { paragraph, presentItems, section } from "../section.ts";
import { DELIVERED } from "../words/identity.ts";
import { toSentence } from "../words/text.ts";
import { FEWEST_PAIRS, keyPairs } from "./key-row.ts";

/** How the head leaves the shop, and on whose word. */
export const handover: BlockBuilder = (context, place) => {
  const { text, shop, identity } = context.model;
  if (identity.kind === "product") return [];
  const words = [
    text.delivered ? DELIVERED[text.delivered] : "",
    springsWords(context),
    shop.warranty ? toSentence(shop.warranty) : "",
  ].filter((part) => part !== "");
  return section(place, "Hand-over", paragraph(words.join(" "), "small"));
};

/** Conditions of what is handed over, beside the places to sign; pairs too few for a key row stand first. */
export const warranty: BlockBuilder = (context, place) => {
  const { shop, identity } = context.model;
  if (identity.kind === "product") return [];
  const pairs = keyPairs(context);
  const compressed = pairs.some(({ label }) => label.startsWith("Compression"));
  const words = presentItems<string>([
    ...(pairs.length < FEWEST_PAIRS ? pairs.map(({ label, value, note }) => pairWords(label, value, note)) : []),
    compressed && "Compression: gasket and piston as stated by the customer.",
    shop.warranty && toSentence(shop.warranty),
  ]);
  return section(place, undefined, paragraph(words.join(" "), "caption"));
};

const pairWords = (label: string, value: string, note?: string) => `${label}: ${value}${note ? ` (${note})` : ""}.`;

/** Places to sign. */
export const signatures: BlockBuilder = ({ model: { shop, identity } }, place) => {
  if (identity.kind === "product") return [];
  const name = shop.responsible;
  return section(place, undefined, [
    {
      kind: "signatures",
      labels: [{ role: "For the shop, with date", ...(name ? { name } : {}) }, { role: "Received by, with date" }],
    },
  ]);
};

function springsWords(context: Context): string {
  const travel = springTravelCheck(context);
  return travel.kind === "set up" ? `Springs are set up for valve lift up to ${travel.lift}.` : "";
}

type Step = { readonly lead: string; readonly text: string };

/** Steps of assembly that come next. */
export const nextSteps: BlockBuilder = ({ model: { text, identity, engine } }, place) => {
  if (identity.kind === "product") return [];
  const bare = text.delivered === "bare";
  const steps = presentItems<Step>([
    bare && { lead: "Valves and springs:", text: "fit and set up for your cam." },
    { lead: "Pistons:", text: "measure valve to piston by turning the engine by hand." },
    {
      lead: "Gasket:",
      text:
        engine?.gasket === undefined
          ? "tell us its bore and thickness; compression depends on it."
          : `use the ${engine.gasket.kind === "ring" ? "thickness and bore" : "volume"} stated to us, or ask again.`,
    },
    { lead: "Fuel and ignition:", text: "set afresh, starting from the safe side." },
    { lead: "Tightening:", text: "follow the engine maker's order and figures." },
  ]);
  return section(place, "What comes next", [{ kind: "list", compact: true, items: steps }]);
};
