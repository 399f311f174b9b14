import type { Shop } from "../../model/model.ts";
import type { Part } from "../content.ts";
import type { BlockBuilder } from "../context.ts";
import { said } from "../section.ts";

/** The shop, with pride. */
export const masthead: BlockBuilder = ({ model }) => shopMasthead(model.shop);

/** The same for a sheet that is of no job. */
export function shopMasthead(shop: Shop): readonly Part[] {
  const name = shop.name ?? "";
  const reach = said<string>([shop.address.join(", "), shop.phone]);
  const lines = said<{ text: string; link?: string }>([
    reach.length > 0 && { text: reach.join(" · ") },
    shop.email !== undefined && { text: shop.email, link: `mailto:${shop.email}` },
    shop.web !== undefined && { text: shop.web, link: /^https?:/.test(shop.web) ? shop.web : `https://${shop.web}` },
  ]);
  if (name === "" && lines.length === 0 && shop.logo === undefined) return [];
  return [
    {
      kind: "masthead",
      name,
      lines,
      ...(shop.strapline ? { strapline: shop.strapline } : {}),
      ...(shop.logo ? { logo: { image: shop.logo, alt: name === "" ? "Shop logo" : `Logo of ${name}` } } : {}),
    },
  ];
}
