import { error } from "../../diagnostics/build.ts";
import type { ShopRule } from "./rule.ts";

/** A colour is written as six hexadecimal digits. */
export const accent: ShopRule = ({ shop, located }) => {
  const typed = shop.shop?.accent;
  if (typed === undefined || /^#[0-9a-f]{6}$/i.test(typed)) return [];
  return [
    error("job/accent", `\`${typed}\` is not a colour`, located.span(["shop", "accent"]), {
      hint: 'write it in quotes with six digits: "#1F4E5F"',
    }),
  ];
};
