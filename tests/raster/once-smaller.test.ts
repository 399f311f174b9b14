import { expect, test } from "vitest";
import { onceSmaller } from "../../src/raster/once-smaller.ts";
import { jpegOf } from "./sample-photos.ts";

test("the same photo at the same size is made smaller once; at another size, or another photo, anew", async () => {
  const photo = jpegOf(400, 300, (x, y) => [x % 256, y % 256, 90]);
  const first = await onceSmaller(photo, { width: 40, height: 30 });
  expect(first).toBeDefined();
  expect(await onceSmaller(Uint8Array.from(photo), { width: 40, height: 30 })).toBe(first);
  expect(await onceSmaller(photo, { width: 20, height: 15 })).not.toBe(first);
});
