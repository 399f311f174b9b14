import { describe, test } from "vitest";
import { keepsEveryRule } from "../conformance/keeps-every-rule.ts";
import { demoJobs, ROOT } from "../whole/demo.ts";

describe("every demo sheet, with all that it may carry inside, keeps every rule and is small", () => {
  test.each(demoJobs.map((path) => [path.slice(ROOT.length), path] as const))("%s", async (_name, path) => {
    await keepsEveryRule(path);
  });
});
