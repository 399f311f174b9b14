import { describe, expect, test } from "vitest";
import { render } from "../../src/diagnostics/render.ts";
import { jsonSchema } from "../../src/job/json-schema.ts";
import { readJob } from "../../src/job/read-job.ts";
import { readShop } from "../../src/job/read-shop.ts";
import { starterJob, starterProduct } from "../../src/job/starter/starter.ts";
import { SHORT_SET } from "../project/shop-texts.ts";
import { FULL_JOB, FULL_PRODUCT, FULL_SHOP } from "./full-job.ts";

const SHOP_UNITS = { units: { length: "in", flow: "cfm" } };
const said = (text: string, shop = {}) =>
  render(readJob("job.yaml", text, shop).diagnostics, new Map([["job.yaml", text]]));

describe("nothing valid is refused", () => {
  test("the short set", () => expect(said(SHORT_SET, SHOP_UNITS)).toBe(""));
  test("a job with every key", () => expect(said(FULL_JOB)).toBe(""));
  test("a product with every key", () => expect(said(FULL_PRODUCT)).toBe(""));
  test("the starter job", () => expect(said(starterJob({ number: "2026-001", issued: "2026-01-02" }))).toBe(""));
  test("the starter product", () => expect(said(starterProduct({ number: "QH-1", issued: "2026-01-02" }))).toBe(""));
  test("a shop with every key", () => {
    const { diagnostics, shop, units } = readShop("shop.yaml", FULL_SHOP);
    expect(render(diagnostics, new Map([["shop.yaml", FULL_SHOP]]))).toBe("");
    expect(shop?.shop?.accent).toBe("#1F4E5F");
    expect(units.speed).toBe("ft/s");
  });
});

test("the texts above use every key of the schema", () => {
  const keys = new Set<string>();
  const walk = (node: unknown) => {
    if (typeof node !== "object" || node === null) return;
    for (const key of Object.keys((node as { properties?: object }).properties ?? {})) keys.add(key);
    for (const inner of Object.values(node)) walk(inner);
  };
  walk(jsonSchema("job"));
  walk(jsonSchema("shop"));
  const all = FULL_JOB + FULL_PRODUCT + FULL_SHOP;
  // These state the same as another key and are refused beside it; see rules.test.ts.
  const rivals = ["lift", "dome", "above_deck", "volume", "heads_of"];
  const unused = [...keys].filter((key) => !new RegExp(`\\b${key}:`).test(all));
  expect(unused.filter((key) => !rivals.includes(key))).toEqual([]);
});

describe("text keeps its text", () => {
  const job = readJob(
    "job.yaml",
    SHORT_SET.replace('"2026-014"', "012").replace("stamped: 4471", "stamped: 1e3, casting: 0x1F"),
    SHOP_UNITS,
  ).job;
  test("ticket", () => expect(job?.job).toBe("012"));
  test("stamp", () => expect(job?.head?.stamped).toBe("1e3"));
  test("casting", () => expect(job?.head?.casting).toBe("0x1F"));
});

test("where a map is wanted, the hint writes one, with the word that was typed", () => {
  expect(said(SHORT_SET.replace(/customer: .*/, "customer: Bob"), SHOP_UNITS)).toContain(
    "`customer` must be a map of keys",
  );
  expect(said(SHORT_SET.replace(/customer: .*/, "customer: Bob"), SHOP_UNITS)).toContain(
    "hint: write customer: { name: Bob }",
  );
});

test("an empty value is an absent key", () => {
  const job = readJob("job.yaml", `${SHORT_SET}received:\nremarks:\nengine:\n`, SHOP_UNITS).job;
  expect(job).toBeDefined();
  expect(Object.keys(job ?? {})).not.toContain("received");
});

test("units of the job stand over those of the shop", () => {
  const text = SHORT_SET.replace("customer:", "units: { flow: l/s }\ncustomer:");
  const { units } = readJob("job.yaml", text, SHOP_UNITS);
  expect(units).toMatchObject({ length: "in", flow: "l/s" });
});

describe("files as editors and spreadsheets save them", () => {
  test("a byte order mark", () => expect(said(`\ufeff${SHORT_SET}`, SHOP_UNITS)).toBe(""));
  test("carriage returns", () => expect(said(SHORT_SET.replaceAll("\n", "\r\n"), SHOP_UNITS)).toBe(""));
});

test("the starter names its schema for editors when one is given", () => {
  const text = starterJob({ number: "1", issued: "2026-01-02", schema: "../schemas/job.schema.json" });
  expect(text.split("\n")[0]).toBe("# yaml-language-server: $schema=../schemas/job.schema.json");
  expect(said(text)).toBe("");
});
