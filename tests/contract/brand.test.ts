import { describe, expect, test } from "vitest";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { sheetContent } from "../../src/pipeline/render-sheet.ts";
import { readBack } from "../pdf/read-back.ts";
import { kit } from "../whole/demo.ts";
import { LONG_FILES, LONG_PRODUCT, LONG_SHOP } from "./long-job.ts";
import { everythingIn, sheetsOf, shopWorld } from "./made.ts";

const LOGO = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 10"><path fill="#123456" d="M0 0h20v10z"/></svg>';
const JOB = `job: "7"
issued: 2026-03-18
customer: { name: H. Ashgrove }
head: { name: Two-valve four }
units: { length: in, flow: cfm }
bench: { test_pressure: 28 inH2O }
stages:
  - name: Finished
    intake: { valve: 1.732, throat: 1.525 }
    flow: |
      lift intake
      0.100 43.0
      0.200 85.2
      0.300 121.4
`;
const world = (shop: string, more: Readonly<Record<string, string | Uint8Array>> = {}) =>
  shopWorld({ ...LONG_FILES, "/shop/shop.yaml": shop, "/shop/logo.svg": LOGO, "/shop/b.yaml": JOB, ...more });
const loaded = (shop: string, more = {}) => evaluateJob("/shop/b.yaml", {}, world(shop, more));
const faults = (shop: string, more = {}) =>
  loaded(shop, more).diagnostics.map(({ code, message }) => `${code} ${message}`);

describe("the brand of a shop", () => {
  test("logo and accent under brand win over those under shop", () => {
    const shop =
      'shop: { name: Quay, logo: logo.png, accent: "#1F4E5F" }\nbrand: { logo: logo.svg, accent: "#5F1F4E" }\n';
    const { drawable } = loaded(shop);
    expect(drawable?.model.shop).toMatchObject({ logo: "logo.svg", accent: "#5F1F4E" });
    const { sheet } = sheetContent(drawable!, "handover", {}, { ...kit, io: world(shop) });
    expect(sheet?.theme.colors.accent).toBe("#5f1f4e");
    expect(faults(shop).filter((one) => one.startsWith("job/brand-twice"))).toEqual([
      "job/brand-twice `logo` stands under `shop` and under `brand`: that of `brand` is used",
      "job/brand-twice `accent` stands under `shop` and under `brand`: that of `brand` is used",
    ]);
  });
  test("old keys hold, without a word", () => {
    const shop = 'shop: { name: Quay, logo: logo.svg, accent: "#1F4E5F" }\n';
    expect(loaded(shop).drawable?.model.shop).toMatchObject({ logo: "logo.svg", accent: "#1F4E5F" });
    expect(faults(shop).filter((one) => /logo|accent|brand/.test(one))).toEqual([]);
  });
  test("an SVG that holds more than filled shapes is refused, by what it holds", () => {
    const harmed = LOGO.replace("<path", "<script>x()</script><path");
    expect(faults("brand: { logo: logo.svg }\n", { "/shop/logo.svg": harmed })).toContain(
      "project/picture-broken `logo.svg` cannot be drawn: it holds <script>",
    );
  });
  test("an SVG is no photograph", () => {
    const photo = `${JOB}photos: [ { file: logo.svg } ]\n`;
    expect(faults("shop: { name: Quay }\n", { "/shop/b.yaml": photo })).toContain(
      "project/picture-kind `logo.svg` is neither a JPEG nor a PNG picture",
    );
  });
  test("a colour that is none is refused under brand too", () => {
    expect(faults('brand: { accent: "teal" }\n')).toContain("job/accent `teal` is not a colour");
  });
});

test.each([
  ["rule", "plex", /IBMPlexSans/],
  ["band", "source", /SourceSans3/],
  ["plain", "open", /OpenSans/],
] as const)("masthead %s in the typeface %s, its logo drawn as shapes", async (masthead, font, name) => {
  const shop = `shop: { name: Quay }\nbrand: { logo: logo.svg, masthead: ${masthead}, font: ${font} }\n`;
  const [pdf] = [...(await sheetsOf("/shop/b.yaml", world(shop))).values()];
  const fonts = new Set((await readBack(pdf!)).flatMap(({ texts }) => texts.map((text) => text.font)));
  expect([...fonts].filter((one) => !name.test(one))).toEqual([]);
  expect(fonts.size).toBeGreaterThan(1);
  // The logo's colour, once.
  expect((await everythingIn(pdf!)).match(/0\.071 0\.204 0\.337 rg/g)).toHaveLength(1);
});

test("a product's photograph stands on its cover", () => {
  const product = LONG_PRODUCT.replace(/photo: [^,}]+/, "photo: photos/2026-014-chamber.jpg");
  const cover = (hero: string) => {
    const shop = LONG_SHOP.replace(/^brand: .*$/m, `brand: { hero: ${hero} }`);
    const io = world(shop, { "/shop/a.yaml": product });
    const { drawable, diagnostics } = evaluateJob("/shop/a.yaml", {}, io);
    if (!drawable) throw new Error(JSON.stringify(diagnostics));
    const { sheet } = sheetContent(drawable, "catalogue", {}, { ...kit, io });
    const [part] = sheet!.rows[0]!.cells[0]!.block.parts;
    if (part?.kind !== "cover") throw new Error("no cover");
    return part;
  };
  expect(cover("photo").picture?.image).toBe("photos/2026-014-chamber.jpg");
  expect(cover("photo").valves).toBeUndefined();
  expect(cover("outline").picture).toBeUndefined();
  expect(cover("none").picture).toBeUndefined();
  expect(cover("none").valves).toBeUndefined();
});
