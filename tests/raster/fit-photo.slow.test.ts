import { deflateSync, inflateSync } from "node:zlib";
import { decode as readPng } from "fast-png";
import { decode } from "jpeg-js";
import { describe, expect, test } from "vitest";
import { stripMetadata } from "../../src/images/strip-metadata.ts";
import type { DrawnSize, PlacedItem } from "../../src/layout/page.ts";
import { srgbProfile } from "../../src/pdf/file/srgb-profile.ts";
import { imageSizes } from "../../src/pdf/pictures.ts";
import { downscalePhoto } from "../../src/raster/downscale-photo.ts";
import type { Pixels } from "../../src/raster/encode-png.ts";
import { fitPhoto, PROGRESSIVE_PIXELS } from "../../src/raster/fit-photo.ts";
import { rasterizePages } from "../../src/raster/page-renderer.ts";
import { paintPages, unpacked } from "../pdf/a-pdf.ts";
import { jpeg, png } from "../project/pictures.ts";
import { COLOURS, carrying, jpegOf, pngOf, SAMPLES, segment, turnedPhoto } from "./sample-photos.ts";

const artifact = { tag: { kind: "artifact" }, block: "photos" } as const;
const placed = (image: string, x: number, y: number, width: number, height: number): PlacedItem =>
  ({ kind: "image", image, x, y, width, height, ...artifact }) as const;
/** As the road does it: notes taken out when it is read, measured, fitted. */
const fitted = (bytes: Uint8Array, drawn: DrawnSize) => {
  const read = stripMetadata(bytes);
  return fitPhoto("p", read, imageSizes(new Map([["p", read]])).get("p")!, drawn, downscalePhoto);
};
const colourAt = ({ data, width }: Pixels, x: number, y: number) => [
  ...data.subarray((y * width + x) * 4, (y * width + x) * 4 + 3),
];
const near = (seen: readonly number[], wanted: readonly number[]) =>
  Math.max(...seen.map((one, i) => Math.abs(one - wanted[i]!)));

describe("which way up", () => {
  // 60 × 40 as looked at; on the page at 1 pixel a point, which is kept, and at 600 dots an inch, which is made smaller.
  test.each([
    ["kept", 1],
    ["made smaller", 0.12],
  ])("a photo of each of the eight orientations stands upright on the page, %s", async (_, scale) => {
    const images = new Map<string, Uint8Array>();
    const items: PlacedItem[] = [];
    for (const value of [1, 2, 3, 4, 5, 6, 7, 8]) {
      const size = { width: 60 * scale, height: 40 * scale };
      const { bytes } = await fitted(turnedPhoto(value, 60, 40), size);
      images.set(`${value}`, bytes);
      // Painted at one size, whatever was made of it.
      items.push(placed(`${value}`, 10, 50 * (value - 1), 60, 40));
    }
    const [page] = await rasterizePages(await paintPages([{ width: 80, height: 400, items }], images), 1);
    for (const value of [1, 2, 3, 4, 5, 6, 7, 8]) {
      const top = 50 * (value - 1);
      const corners = [
        [22, top + 8, COLOURS.red],
        [58, top + 8, COLOURS.green],
        [22, top + 32, COLOURS.blue],
        [58, top + 32, COLOURS.yellow],
      ] as const;
      for (const [x, y, wanted] of corners)
        expect(near(colourAt(page!, x, y), wanted), `${value}: ${x}, ${y}`).toBeLessThan(24);
      // It fills its place and no more.
      expect(near(colourAt(page!, 12, top + 3), COLOURS.red)).toBeLessThan(24);
      expect(colourAt(page!, 5, top + 20)).toEqual([255, 255, 255]);
      expect(colourAt(page!, 75, top + 20)).toEqual([255, 255, 255]);
    }
  });
});

describe("how fine", () => {
  const soft = jpegOf(600, 400, (x, y) => [x % 256, y % 256, 90]);
  test("up to 300 dots an inch a photo goes in byte for byte; under 200 it is said", async () => {
    expect(
      (await fitPhoto("p", soft, { width: 600, height: 400 }, { width: 144, height: 96 }, downscalePhoto)).bytes,
    ).toBe(soft);
    expect(await fitPhoto("p", soft, { width: 600, height: 400 }, { width: 216, height: 144 }, downscalePhoto)).toEqual(
      {
        bytes: soft,
      },
    );
    const coarse = await fitPhoto("p", soft, { width: 600, height: 400 }, { width: 240, height: 160 }, downscalePhoto);
    expect(coarse.bytes).toBe(soft);
    expect(coarse.remark).toMatchObject({ code: "photo/coarse", message: expect.stringContaining("180 dots") });
    expect(coarse.remark!.hint).toContain("1000 pixels");
  });
  test("above, it has 300 dots an inch, the same bytes each time, and is smaller", async () => {
    const drawn = { width: 72, height: 48 };
    const { bytes, remark } = await fitted(soft, drawn);
    expect(remark).toBeUndefined();
    expect(decode(bytes)).toMatchObject({ width: 300, height: 200 });
    expect(bytes.length).toBeLessThan(soft.length);
    expect(Buffer.from((await fitted(soft, drawn)).bytes).equals(Buffer.from(bytes))).toBe(true);
  });
  // A board of single black and white pixels turns grey. Of the mean over a square of a side of n pixels, one pixel's 127.5
  // can be left over along each side: 127.5 ÷ n² off the middle, and what the JPEG adds.
  test("fine detail becomes its mean, never a pattern of its own", async () => {
    const board = jpegOf(400, 400, (x, y) => ((x + y) % 2 === 0 ? [255, 255, 255] : [0, 0, 0]), 100);
    const { data, width } = decode((await fitted(board, { width: 35, height: 35 })).bytes);
    const off = Math.max(...data.filter((_, i) => i % 4 === 0).map((red) => Math.abs(red - 127.5)));
    expect(off).toBeLessThan(127.5 / (400 / width) ** 2 + 5);
  });
});

test("of a cropped one only what is seen is kept, at the resolution of print", async () => {
  // Four fields; the frame shows the right half, where red and yellow meet in the middle of its height.
  const photo = jpegOf(800, 400, (x, y) => (x < 400 ? [0, 0, 250] : y < 200 ? [250, 0, 0] : [250, 250, 0]));
  const drawn = { width: 96, height: 48, seen: { x: 48, y: 0, width: 48, height: 48 } };
  const { bytes, cropped } = await fitted(photo, drawn);
  const seen = decode(bytes);
  expect([cropped, seen.width, seen.height]).toEqual([true, 200, 200]);
  const data = { ...seen, data: new Uint8Array(seen.data) };
  expect(near(colourAt(data, 4, 4), [250, 0, 0])).toBeLessThan(24);
  expect(near(colourAt(data, 195, 195), [250, 250, 0])).toBeLessThan(24);
  // One that print can show stays whole; the page crops it.
  const fine = await fitted(photo, { ...drawn, width: 288, height: 144 });
  expect([fine.cropped, fine.bytes.length]).toEqual([undefined, stripMetadata(photo).length]);
});

describe("kinds of photo", () => {
  const drawn = { width: 4.8, height: 3.6 };
  const looks = async (bytes: Uint8Array, tolerance: number) => {
    const after = decode((await downscalePhoto(bytes, { width: 20, height: 15 }))!);
    expect(after).toMatchObject({ width: 20, height: 15 });
    const data = { ...after, data: new Uint8Array(after.data) };
    expect(near(colourAt(data, 3, 3), [0, 255, 0])).toBeLessThan(tolerance);
    expect(near(colourAt(data, 16, 11), [255, 255, 0])).toBeLessThan(tolerance);
  };
  test("progressive", () => looks(SAMPLES.progressive, 60));
  // Inks print a duller green than a screen's; that it is a green, and the other a yellow, is what can be told without a press.
  test("in printer's inks: it comes out in red, green and blue, which an archive takes", async () => {
    const after = decode((await downscalePhoto(SAMPLES.inks, { width: 20, height: 15 }))!);
    const [lime, yellow] = [3 + 3 * 20, 16 + 11 * 20].map((n) => [...after.data.subarray(4 * n, 4 * n + 3)]);
    expect(lime![1]! - Math.max(lime![0]!, lime![2]!)).toBeGreaterThan(60);
    expect(Math.min(yellow![0]!, yellow![1]!) - yellow![2]!).toBeGreaterThan(100);
  });
  test("grey", async () => {
    const [red, green, blue] = decode((await fitted(SAMPLES.grey, drawn)).bytes).data;
    // Lime at 8 bits: 0.7152 of white's light (ITU-R BT.709), about 182 to 220 as a grey, by the formula the maker used.
    expect(red).toBeGreaterThan(150);
    expect(Math.abs(red! - green!) + Math.abs(red! - blue!)).toBeLessThan(6);
  });
  test("a photograph as PNG becomes a JPEG; a drawing stays a PNG, on white where it was see-through", async () => {
    const grain = (x: number, y: number) => ((x * 7919 + y * 104729 + x * y * 31) % 23) - 11;
    const shade = (at: number) => 120 + 70 * Math.sin(at / 40);
    const photo = await fitted(
      pngOf(200, 150, (x, y) => [shade(x) + grain(x, y), shade(y) + grain(y, x), 90]),
      { width: 24, height: 18 },
    );
    expect([...photo.bytes.subarray(0, 2)]).toEqual([0xff, 0xd8]);
    const lines = await fitted(
      pngOf(200, 150, (x) => (x < 100 ? [20, 20, 20] : [255, 255, 255])),
      { width: 24, height: 18 },
    );
    expect(readPng(lines.bytes)).toMatchObject({ width: 100, height: 75, channels: 3 });
  });
  test("a photo of one shade throughout is kept as it is, and said so", async () => {
    const grey = jpeg({ width: 64, height: 48 });
    const { bytes, remark } = await fitted(grey, drawn);
    expect(Buffer.from(bytes).equals(Buffer.from(grey))).toBe(true);
    expect(remark?.code).toBe("photo/kept-large");
  });
  test("a progressive one that would fill the memory is not opened", async () => {
    const side = Math.ceil(Math.sqrt(PROGRESSIVE_PIXELS)) + 1;
    const { remark } = await fitted(jpeg({ width: side, height: side, frame: 0xc2 }), { width: 240, height: 240 });
    expect(remark).toMatchObject({ code: "photo/kept-large", note: expect.stringContaining("progressive") });
  });
});

describe("what the file tells", () => {
  const profile = segment(0xe2, "ICC_PROFILE\0", new Uint8Array([1, 1]), srgbProfile());
  const secrets = [
    segment(0xe1, "Exif\0\0MM\0*\0\0\0\x08\0\0GPS 54.1N"),
    segment(0xe1, "http://ns.adobe.com/xap/1.0/\0<x>xmp by Ann</x>"),
    segment(0xed, "Photoshop 3.0\x008BIM iptc Ovenby"),
    segment(0xe0, "JFXX\0thumb of it"),
    segment(0xfe, "comment at the bench"),
  ];
  const WORDS = /GPS|Exif|by Ann|Photoshop|iptc|JFXX|thumb of|at the bench|ICC_PROFILE/;
  const inFile = async (bytes: Uint8Array, drawn: { width: number; height: number }) => {
    const image = await fitted(bytes, drawn);
    const pdf = await paintPages(
      [{ width: 100, height: 100, items: [placed("p", 0, 0, 60, 40)] }],
      new Map([["p", image.bytes]]),
    );
    return unpacked(pdf, inflateSync);
  };
  test.each([
    ["kept", { width: 60, height: 40 }],
    ["made smaller", { width: 7.2, height: 4.8 }],
  ])("no note of a camera; the colour profile as the file's own; %s", async (_, drawn) => {
    const photo = carrying(turnedPhoto(6, 60, 40), ...secrets, profile);
    expect(Buffer.from(photo).toString("latin1")).toMatch(WORDS);
    const text = await inFile(photo, drawn);
    expect(text).not.toMatch(WORDS);
    expect(text).toMatch(/\/ColorSpace \[\/ICCBased \d+ 0 R\]/);
    expect(text).toContain("/N 3\n/Alternate /DeviceRGB");
  });
  test("without a profile, or with a broken one, the colours are plain", async () => {
    for (const one of [
      turnedPhoto(1, 60, 40),
      carrying(turnedPhoto(1, 60, 40), segment(0xe2, "ICC_PROFILE\0\x01\x01torn")),
    ])
      expect(await inFile(one, { width: 60, height: 40 })).toContain("/ColorSpace /DeviceRGB");
  });
  test("two photos of the same bytes stand in it once", async () => {
    const bytes = turnedPhoto(1, 60, 40);
    const items = [placed("a", 0, 0, 60, 40), placed("b", 0, 50, 60, 40)];
    const images = new Map([
      ["a", bytes],
      ["b", Uint8Array.from(bytes)],
    ]);
    const text = unpacked(await paintPages([{ width: 100, height: 100, items }], images), inflateSync);
    expect(text.match(/\/Subtype \/Image/g)?.length).toBe(1);
  });
});

test("a PNG's texts, times, EXIF and profile name stay out of the file, whether it is kept or made smaller", async () => {
  const secret = "zq-where-i-live";
  const note = (type: string, text: string): readonly [string, Uint8Array] => [type, Buffer.from(text, "latin1")];
  const bytes = png({
    width: 60,
    height: 40,
    extra: [
      note("tEXt", `Comment\0${secret}-1`),
      note("iTXt", `XML:com.adobe.xmp\0\0\0\0\0<x>${secret}-2</x>`),
      note("eXIf", `II*\0${secret}-3`),
      note("zTXt", `Author\0\0${deflateSync(Buffer.from(`${secret}-4`)).toString("latin1")}`),
      ["tIME", Buffer.from([0x07, 0xea, 3, 14, 12, 0, 0])],
    ],
  });
  expect(Buffer.from(bytes).toString("latin1")).toContain(secret);
  for (const scale of [1, 0.12]) {
    const size = { width: 60 * scale, height: 40 * scale };
    const photo = (await fitted(bytes, size)).bytes;
    const pdf = await paintPages(
      [{ width: 80, height: 60, items: [placed("p", 5, 5, 60, 40)] }],
      new Map([["p", photo]]),
    );
    const whole = Buffer.from(pdf).toString("latin1") + unpacked(Buffer.from(pdf), inflateSync);
    for (const word of [secret, "Comment\0", "tEXt", "eXIf", "zTXt", "iTXt", "tIME"])
      expect([scale, word, whole.includes(word)]).toEqual([scale, word, false]);
  }
});
