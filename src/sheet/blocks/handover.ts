import { setUp, springTravel } from "../cautions.ts";
import type { BlockBuilder, Context } from "../context.ts";
import { paragraph, section } from "../section.ts";
import { DELIVERED } from "../words/identity.ts";
import { sentence } from "../words/text.ts";

/** How the head leaves the shop, and on whose word. */
export const handover: BlockBuilder = (context, place) => {
  const { text, shop, identity } = context.model;
  if (identity.kind === "product") return [];
  const words = [
    text.delivered ? DELIVERED[text.delivered] : "",
    springsSetUp(context),
    shop.warranty ? sentence(shop.warranty) : "",
  ].filter((part) => part !== "");
  return section(place, "Hand-over", paragraph(words.join(" "), "small"));
};

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

function springsSetUp(context: Context): string {
  const { lift } = springTravel(context);
  if (!setUp(context) || lift === undefined) return "";
  return `Springs are set up for valve lift up to ${context.display.full("lift", lift)}.`;
}
