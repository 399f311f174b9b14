import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { expect, test } from "vitest";
import { ROOT, scratch } from "../cli/run.ts";
import { installNode } from "../slow/install-node.ts";

const folder = scratch();

test("Node 24 passes the quick tests", () => {
  const vitest = join(ROOT, "node_modules", "vitest", "vitest.mjs");
  const suite = spawnSync(installNode(folder, "24"), [vitest, "run", "--config=tests/vitest.config.ts", "--silent"], {
    cwd: ROOT,
    encoding: "utf8",
    maxBuffer: 1 << 28,
  });
  expect(suite.status, `${suite.stdout}\n${suite.stderr}`).toBe(0);
});
