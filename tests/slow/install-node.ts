import { spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect } from "vitest";

/** A plain Node binary from the registry, in this folder. */
export function installNode(folder: string, version: string): string {
  writeFileSync(join(folder, "package.json"), "{}");
  const name = `node-linux-${process.arch}`;
  const { status, stderr } = spawnSync(
    "npm",
    ["install", "--no-save", "--silent", "--prefix", folder, `${name}@${version}`],
    { encoding: "utf8" },
  );
  expect(stderr, stderr).not.toContain("npm error");
  expect(status).toBe(0);
  return join(folder, "node_modules", name, "bin", "node");
}
