import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { copyJobs, headsheet, namesIn, ROOT, scratch } from "../cli/run.ts";
import { content, readPdf } from "../conformance/pdf-file.ts";
import { isKind, type Value } from "../conformance/values.ts";
import { expectPinned } from "../pinned.ts";

const folder = scratch();
const sha256 = (data: string | Buffer) => createHash("sha256").update(data).digest("hex");

/** Hash of a PDF's objects with their streams inflated: builds of zlib may compress the same data to other bytes. */
function contentHash(bytes: Buffer): string {
  const file = readPdf(bytes);
  const objects = [...file.objects].map(([number, value]) => [number, plain(value), data(value)]);
  return sha256(JSON.stringify([objects, plain(file.trailer)]));

  function plain(value: Value): unknown {
    if (Array.isArray(value)) return value.map(plain);
    if (!isKind(value, "dict") && !isKind(value, "stream")) return value;
    return [...value.entries].map(([key, held]) => (key === "Length" ? [] : [key, plain(held)]));
  }
  function data(value: Value): string {
    return isKind(value, "stream") ? sha256(content(file, value)) : "";
  }
}

test("demo sheets, the shelf of the demo jobs and the schemas are as accepted (UPDATE_PINS=1 accepts them anew)", () => {
  copyJobs(join(folder, "jobs"));
  expect(headsheet(["make", "jobs", "--out", "out"], { cwd: folder }).code).toBe(0);
  const sheets = namesIn(join(folder, "out")).map(
    (name) => [name, contentHash(readFileSync(join(folder, "out", name)))] as const,
  );
  expect(sheets).toHaveLength(23);
  const schemas = readdirSync(join(ROOT, "schemas")).map(
    (name) => [name, sha256(readFileSync(join(ROOT, "schemas", name)))] as const,
  );
  const shelf = ["shelf --json", sha256(headsheet(["shelf", "jobs", "--json"], { cwd: folder }).out)] as const;
  const lines = [...sheets, shelf, ...schemas].map(([name, hash]) => `${hash}  ${name}`);
  expectPinned(new URL("./baseline.txt", import.meta.url), lines);
});
