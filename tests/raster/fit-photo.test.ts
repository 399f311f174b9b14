import { expect, test } from "vitest";
import { createDownscale } from "../../src/raster/fit-photo.ts";
import { jpegOf } from "./sample-photos.ts";

test("the same photo at the same size is made smaller once; at another size, or another photo, anew", async () => {
  const photo = jpegOf(400, 300, (x, y) => [x % 256, y % 256, 90]);
  const downscale = createDownscale();
  const first = await downscale(photo, { width: 40, height: 30 });
  expect(first).toBeDefined();
  expect(await downscale(Uint8Array.from(photo), { width: 40, height: 30 })).toBe(first);
  expect(await downscale(photo, { width: 20, height: 15 })).not.toBe(first);
});
