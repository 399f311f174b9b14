import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";

const folder = new URL("./", import.meta.url);
/** Tests that may measure time, and the bench's programs. */
const TIMED = /^(slow|soak)\/|\.slow\.test\.ts$|^bench\/(?!.*\.test\.ts$)/;
const CLOCK = /\bDate\.now\(|\bperformance\.now\(|\bhrtime\b|\bcpuUsage\b|\btimeOrigin\b/;

test("no quick test reads a clock: what it finds would depend on the machine", () => {
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" })
    .map((file) => file.replaceAll("\\", "/"))
    .filter((file) => file.endsWith(".ts") && !TIMED.test(file) && file !== "clocks.test.ts");
  expect(files.length).toBeGreaterThan(100);
  expect(files.filter((file) => CLOCK.test(readFileSync(new URL(file, folder), "utf8")))).toEqual([]);
});
