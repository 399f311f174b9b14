import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { render } from "../../src/diagnostics/render.ts";
import { imageSizes } from "../../src/pdf/pictures.ts";
import { loadProject } from "../../src/project/load-project.ts";
import { checkPicture } from "../../src/project/picture-fault.ts";
import { memoryWorld } from "./memory-world.ts";
import { jpeg, png } from "./pictures.ts";
import { SHOP, SHORT_SET } from "./shop-texts.ts";

const codeOf = (bytes: Uint8Array) => checkPicture(bytes, "p")?.code;
const whyOf = (bytes: Uint8Array) => checkPicture(bytes, "p")?.message;
const without = (bytes: Uint8Array, from: number) => bytes.subarray(0, from);

describe("a JPEG", () => {
  test.each([0xc0, 0xc1, 0xc2])("with frame %i is drawn", (frame) =>
    expect(codeOf(jpeg({ width: 4000, height: 3000, frame }))).toBeUndefined(),
  );
  test.each([1, 3, 4])("of %i colours is drawn", (components) =>
    expect(codeOf(jpeg({ width: 8, height: 8, components }))).toBeUndefined(),
  );
  test.each([
    ["cut off in its head", without(jpeg({ width: 8, height: 8 }), 30), /cut off/],
    ["cut off in its picture", jpeg({ width: 8, height: 8, end: false }), /cut off/],
    ["without a size", jpeg({ width: 0, height: 8 }), /its size/],
    ["without losses", jpeg({ width: 8, height: 8, frame: 0xc3 }), /packed/],
    ["coded arithmetically", jpeg({ width: 8, height: 8, frame: 0xc9 }), /packed/],
    ["of two colours", jpeg({ width: 8, height: 8, components: 2 }), /colours/],
    ["of three bytes", new Uint8Array([0xff, 0xd8, 0xff]), /cut off/],
  ])("%s is refused", (_, bytes, why) => expect(whyOf(bytes)).toMatch(why));
  test("of more pixels than are drawn is refused by its header alone", () =>
    expect(codeOf(jpeg({ width: 65000, height: 65000 }))).toBe("project/picture-pixels"));
});

describe("a PNG", () => {
  const rows = (height: number, bytes: number) => Buffer.alloc(height * (1 + bytes));
  const palette = ["PLTE", new Uint8Array([0, 0, 0, 255, 255, 255])] as const;
  test.each([
    ["8-bit colour", png({ width: 5, height: 3 })],
    ["with transparency", png({ width: 5, height: 3, colour: 6, rows: rows(3, 20) })],
    ["16-bit grey", png({ width: 5, height: 3, colour: 0, bits: 16, rows: rows(3, 10) })],
    ["black and white", png({ width: 9, height: 3, colour: 0, bits: 1, rows: rows(3, 2) })],
    ["of a table of colours", png({ width: 5, height: 3, colour: 3, rows: rows(3, 5), extra: [palette] })],
    // ISO/IEC 15948, 8.2: a picture of 1 × 1 has one pass of one pixel; one of 8 × 8 has 1+1+2+4+8+16+32 pixels in 15 rows.
    ["interlaced, one pixel", png({ width: 1, height: 1, interlaced: 1, rows: rows(1, 3) })],
    ["interlaced, 8 × 8", png({ width: 8, height: 8, interlaced: 1, rows: Buffer.alloc(64 * 3 + 15) })],
  ])("%s is drawn", (_, bytes) => {
    expect(whyOf(bytes)).toBeUndefined();
    expect(imageSizes(new Map([["p", bytes]])).get("p")?.width).toBeGreaterThan(0);
  });
  test.each([
    ["cut off", without(png({ width: 5, height: 3 }), 50), /cut off/],
    ["of the signature alone", without(png({ width: 5, height: 3 }), 8), /cut off/],
    ["of too few rows", png({ width: 5, height: 4, rows: rows(3, 15) }), /cut off/],
    ["of too many rows", png({ width: 5, height: 2, rows: rows(3, 15) }), /more in it/],
    ["without its table of colours", png({ width: 5, height: 3, colour: 3, rows: rows(3, 5) }), /table of colours/],
    ["of a kind that does not exist", png({ width: 5, height: 3, bits: 3 }), /does not exist/],
    ["with a filter that does not exist", png({ width: 1, height: 1, rows: Buffer.from([5, 0, 0, 0]) }), /damaged/],
    ["that says nothing of its size", png({ width: 0, height: 3 }), /its size/],
  ])("%s is refused", (_, bytes, why) => expect(whyOf(bytes)).toMatch(why));
  test("of more pixels than are drawn is refused before any is unpacked", () => {
    const small = png({ width: 60_000, height: 60_000, rows: Buffer.alloc(10) });
    expect(codeOf(small)).toBe("project/picture-pixels");
    expect(codeOf(png({ width: 7900, height: 7900, colour: 6, rows: Buffer.alloc(10) }))).toBe(
      "project/picture-pixels",
    );
  });
  test("that says it is small and unpacks to 200 MB is not unpacked beyond what it says", () => {
    const bomb = png({ width: 5, height: 3, rows: Buffer.alloc(200_000_000) });
    const before = process.memoryUsage().rss;
    expect(whyOf(bomb)).toMatch(/more in it/);
    expect(process.memoryUsage().rss - before).toBeLessThan(50e6);
  });
});

test("a damaged picture that passes never ends the program: what is measured after it does not throw", () => {
  const whole = [
    jpeg({ width: 8, height: 8 }),
    png({ width: 5, height: 3 }),
    png({ width: 9, height: 9, interlaced: 1, rows: Buffer.alloc(81 * 3 + 17) }),
  ];
  fc.assert(
    fc.property(
      fc.constantFrom(...whole),
      fc.array(fc.tuple(fc.nat(200), fc.integer({ min: 0, max: 255 })), { maxLength: 4 }),
      (bytes, hits) => {
        const damaged = Uint8Array.from(bytes);
        for (const [at, value] of hits) if (at < damaged.length) damaged[at] = value;
        if (checkPicture(damaged, "p") === undefined) {
          const size = imageSizes(new Map([["p", damaged]])).get("p");
          expect(Number.isFinite(size?.width) && Number.isFinite(size?.height)).toBe(true);
        }
      },
    ),
    { seed: 7, numRuns: 2000 },
  );
});

test("the fault is shown where the picture is named", () => {
  const job = `${SHORT_SET}photos: [ { file: p.png } ]\n`;
  const { diagnostics, sources, project } = loadProject(
    "/shop/a.yaml",
    memoryWorld({
      "/shop/shop.yaml": SHOP,
      "/shop/a.yaml": job,
      "/shop/p.png": without(png({ width: 5, height: 3 }), 50),
    }),
  );
  expect(project).toBeUndefined();
  expect(render(diagnostics, sources)).toMatch(/picture-broken.*cut off\n +--> .*a\.yaml:\d+:19/);
});

test("a photo that is not there is said once, however often and in whichever spelling it is named", () => {
  const photos = ["gone.png", "gone.png", "./gone.png", "x/../gone.png", "other.png"];
  const job = `${SHORT_SET}sheet: [ handover, attachment ]\nphotos:\n${photos.map((file) => `  - { file: ${file} }\n`).join("")}`;
  const { diagnostics } = loadProject("/shop/a.yaml", memoryWorld({ "/shop/shop.yaml": SHOP, "/shop/a.yaml": job }));
  expect(diagnostics.map(({ message }) => message)).toEqual([
    "there is no photo `gone.png`",
    "there is no photo `other.png`",
  ]);
});
