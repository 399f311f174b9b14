import { expect, test } from "vitest";
import { readJob } from "../../src/job/read-job.ts";
import { starterFrom } from "../../src/job/starter/starter-from.ts";
import { parseYaml } from "../../src/parse/yaml/parse-yaml.ts";
import { FULL_JOB } from "./full-job.ts";

test("what is copied is read back as it was, tables and odd texts included", () => {
  const source = parseYaml("full.yaml", FULL_JOB).document!.value as Record<string, unknown>;
  const odd = { ...source, engine: { ...(source.engine as object), name: "#1: a, {b} 'c' \"d\"" } };
  const text = starterFrom({ number: "12", issued: "2026-03-14" }, odd as never, { length: "in", flow: "l/s" });
  const { document, diagnostics } = parseYaml("new.yaml", text);
  expect(diagnostics).toEqual([]);
  const copy = document!.value as Record<string, unknown>;
  expect(copy.engine).toEqual(odd.engine);
  expect(copy.units).toEqual({ length: "in", flow: "l/s" });
  expect(Object.keys(copy)).not.toContain("work");
  expect(JSON.stringify(copy)).not.toContain("stamped");
  expect(readJob("new.yaml", text).diagnostics.filter(({ severity }) => severity === "error")).toEqual([]);
});
