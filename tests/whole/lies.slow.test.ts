import { expect, test } from "vitest";
import { pagesOf, sheetsOf, shopWorld } from "../contract/made.ts";
import { claims, honest } from "./honest.ts";
import { LIES } from "./lie-cases.ts";

test.each(LIES)("$lie: not in the finished files", async (lie) => {
  const io = shopWorld({ "/shop/a.yaml": lie.job, ...lie.files });
  const product = lie.job.startsWith("product");
  const templates = product ? ["catalogue"] : ["handover", "attachment", "engine"];
  const pages = new Map<string, readonly string[]>();
  for (const [name, pdf] of await sheetsOf("/shop/a.yaml", io, { templates })) pages.set(name, await pagesOf(pdf));
  expect(honest(lie, [...pages.values()].flat().join(" "))).toEqual([]);
  for (const template of product ? [] : ["handover", "attachment"]) {
    const side1 = claims(pages.get(template)?.[0] as string);
    expect([template, (lie.absentOnSide1 ?? []).filter((one) => one.test(side1))]).toEqual([template, []]);
  }
});
