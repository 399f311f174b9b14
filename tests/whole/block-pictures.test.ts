import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { decode } from "fast-png";
import { expect, test } from "vitest";
import { BLOCKS } from "../../src/sheet/blocks.ts";
import { ROOT } from "../cli/run.ts";

const folder = join(ROOT, "templates", "pictures", "blocks");
const pictures = readdirSync(folder);
const rows = readFileSync(join(ROOT, "templates", "README.md"), "utf8").split("\n");
const names = Object.keys(BLOCKS);

// Both are written anew by `node bin/block-pictures.js`.
test("every block has its row in templates/README.md, with what it shows, its rank and whether it may be divided", () => {
  const told = rows.flatMap((row) => /^\| `([a-z-]+)` \| .*\.png/.exec(row)?.[1] ?? []);
  expect(told).toEqual(names);
  for (const [name, { about, priority, split }] of Object.entries(BLOCKS)) {
    const row = rows.find((one) =>
      one.startsWith(`| \`${name}\` | ${about} | ${priority} | ${split ? "yes" : "no"} |`),
    );
    expect(row, name).toContain(`pictures/blocks/${name}.png`);
  }
});

test("every block has its picture, and there are no others; each has something on it and is small", () => {
  expect(pictures.toSorted()).toEqual(names.map((name) => `${name}.png`).toSorted());
  const files = pictures.map((name) => ({ name, bytes: readFileSync(join(folder, name)) }));
  expect(files.reduce((sum, { bytes }) => sum + bytes.length, 0)).toBeLessThan(1_000_000);
  for (const { name, bytes } of files) {
    expect(bytes.length, name).toBeLessThanOrEqual(32_000);
    const { width, data } = decode(bytes);
    expect(width, name).toBeGreaterThan(50);
    expect(data.filter((shade) => shade < 140).length, name).toBeGreaterThan(50);
  }
});
