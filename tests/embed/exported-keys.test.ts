import { expect, test } from "vitest";
import { exportedPart } from "../../src/embed/exported-keys.ts";
import { jobSchema } from "../../src/job/schema/job.ts";
import { type KeyTree, key, keys, keyTree } from "../../src/job/schema/keys.ts";
import { text } from "../../src/job/schema/plain.ts";
import { parseWithheld } from "../../src/sheet/withheld.ts";

const all = keyTree(jobSchema());
/** Every key with a path, benches and sides but once, and what its schema states of it. */
const stated = new Map<string, unknown>();
const walk = (tree: KeyTree, path: string) => {
  for (const [name, inner] of tree.keys) {
    const at = `${path}${name}`
      .replace(/^.*bench\./, "bench.")
      .replace("exhaust.", "intake.")
      .replace("exhaust_", "intake_");
    stated.set(at, inner.exported);
    walk(inner, `${at}.`);
  }
  if (tree.record) walk(tree.record, `${path}*.`);
};
walk(all, "");
const where = (exported: unknown) => [...stated].filter(([, one]) => one === exported).map(([path]) => path);

test("a key that does not say whether it is exported does not compile, and is not exported", () => {
  const told = { name: key(true, text("Told")) };
  // @ts-expect-error: no `key`, no statement
  const tree = keyTree(keys({ ...told, secret: text("Not told").optional() }));
  expect(exportedPart({ name: "a", secret: "b" }, tree, parseWithheld([]), {})).toEqual({ name: "a" });
});

test("every key of a job says whether it is exported", () => {
  expect(stated.size).toBeGreaterThan(150);
  expect(where(undefined)).toEqual([]);
});

test("what stays in the shop, always or when it is held back", () => {
  const within = /^(product|compare|heads_of|samples|photos)\./;
  expect(where(false).filter((path) => !within.test(path))).toEqual([
    "product",
    "sheet",
    "paper",
    "customer.email",
    "customer.phone",
    "customer.address",
    "engine.intake_cam.lift",
    "report.hold_back",
    "report.embed",
    "may_compare",
    "stages.by",
    "stages.runs.file",
    "compare",
    "heads_of",
    "samples",
    "photos",
    "internal",
  ]);
  expect(where("pinch")).toEqual(["report.pinch_limit", "stages.intake.pinch"]);
  expect(where("sections")).toEqual(["stages.intake.sections"]);
  expect(where("seat")).toEqual(["stages.intake.valve.back_cut", "stages.intake.seat"]);
  expect(where("portVolume")).toEqual(["stages.intake.port_volume", "stages.intake.port_volumes"]);
});

test("a key named as a member of every object is none of the schema's", () => {
  const job = { constructor: "a", toString: "b", work: { constructor: "c" } };
  expect(exportedPart(job, all, parseWithheld([]), {})).toEqual({ work: { constructor: "c" } });
});
