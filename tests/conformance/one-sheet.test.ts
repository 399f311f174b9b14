import { test } from "vitest";
import { demo } from "../whole/demo.ts";
import { keepsEveryRule } from "./keeps-every-rule.ts";

// All demo sheets, and that each rule can fail, are checked in the slow tier.
test("a handover with all that it may carry inside keeps every rule and is small", async () => {
  await keepsEveryRule(demo("alder-lane/2026-014.yaml"));
});
