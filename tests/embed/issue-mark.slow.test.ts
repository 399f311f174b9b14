import { expect, test } from "vitest";
import { JOB_KEYS, PRODUCT_KEYS, SHOP_KEYS } from "../contract/keys.ts";
import { LONG_FILES, LONG_JOB, LONG_PRODUCT, LONG_SHOP } from "../contract/long-job.ts";
import { edited, markOf } from "./mark-of.ts";

/** Keys that reach no page, or decide its look and not what it says; ticket and revision name the issue. */
const FREE =
  /^(sheet|revision|draft|paper|units\.(speed|force|power)|internal|may_compare|report\.(embed|strict)|shop\.(name|strapline|address|phone|email|web|accent)|brand\.(accent|masthead|hero|font))$/;

const withShop = (shop: string) => markOf(LONG_JOB, { ...LONG_FILES, "/shop/shop.yaml": shop });

test.each([
  ["job", JOB_KEYS, LONG_JOB, (text: string) => markOf(text)],
  ["product", PRODUCT_KEYS, LONG_PRODUCT, (text: string) => markOf(text)],
  ["shop", SHOP_KEYS, LONG_SHOP, withShop],
] as const)("each key of a %s that reaches a page changes the mark, and no other", (_, cases, text, mark) => {
  const before = mark(text);
  const wrong = cases.filter(({ key, from, to }) => (mark(edited(text, from, to)) === before) !== FREE.test(key));
  expect(wrong.map(({ key, to }) => `${key}: ${to}`)).toEqual([]);
});
