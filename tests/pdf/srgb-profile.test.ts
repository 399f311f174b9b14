import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import { srgbProfile } from "../../src/pdf/file/srgb-profile.ts";

/** Tags of an ICC profile (ICC.1:2001-04, 6.2): signature to bytes. */
function tags(profile: Buffer): ReadonlyMap<string, Buffer> {
  return new Map(
    Array.from({ length: profile.readUInt32BE(128) }, (_, i) => {
      const at = 132 + 12 * i;
      const start = profile.readUInt32BE(at + 4);
      return [profile.toString("latin1", at, at + 4), profile.subarray(start, start + profile.readUInt32BE(at + 8))];
    }),
  );
}
const xyz = (tag: Buffer) => [8, 12, 16].map((at) => tag.readInt32BE(at) / 65536);
const profile = srgbProfile();

// Source: the International Color Consortium's own profile sRGB2014, as pdfkit brings it. It was rounded by another way: 0.0002.
test("primaries are those of the profile that the Color Consortium publishes", () => {
  const kit = dirname(createRequire(import.meta.url).resolve("pdfkit"));
  const theirs = tags(readFileSync(join(kit, "data", "sRGB_IEC61966_2_1.icc")));
  for (const tag of ["rXYZ", "gXYZ", "bXYZ"])
    xyz(tags(profile).get(tag)!).forEach((value, i) => {
      expect(Math.abs(value - xyz(theirs.get(tag)!)[i]!)).toBeLessThan(0.0002);
    });
});

// ICC.1:2001-04, 6.3.4.3 and annex A: the media white point and the sum of the primaries are D50 (0.9642, 1, 0.8249).
test("full red, green and blue make white", () => {
  const white = ["rXYZ", "gXYZ", "bXYZ"].map((tag) => xyz(tags(profile).get(tag)!));
  [0.9642, 1, 0.8249].forEach((wanted, i) => {
    expect(white.reduce((sum, one) => sum + one[i]!, 0)).toBeCloseTo(wanted, 3);
    expect(xyz(tags(profile).get("wtpt")!)[i]).toBeCloseTo(wanted, 4);
  });
});

// IEC 61966-2-1, 5.2: 0 and 1 stay; the straight part ends at 0.04045 ÷ 12.92; 128/255 is 0.2158605 of full light.
test("one curve for the three, as the standard bends it", () => {
  const curve = tags(profile).get("gTRC")!;
  expect(curve.readUInt32BE(8)).toBe(256);
  const at = (level: number) => curve.readUInt16BE(12 + 2 * level) / 65535;
  expect([at(0), at(255)]).toEqual([0, 1]);
  expect(at(10)).toBeCloseTo(10 / 255 / 12.92, 4);
  expect(at(128)).toBeCloseTo(0.2158605, 4);
});

test("the head says what it is, and how long", () => {
  expect(profile.readUInt32BE(0)).toBe(profile.length);
  expect(profile.toString("latin1", 12, 24)).toBe("mntrRGB XYZ ");
  expect(profile.toString("latin1", 36, 40)).toBe("acsp");
  expect(profile.length % 4).toBe(0);
  expect(srgbProfile().equals(profile)).toBe(true);
});
