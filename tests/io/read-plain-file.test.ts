import { spawnSync } from "node:child_process";
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { readPlainFile } from "../../src/io/read-plain-file.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "headsheet-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

test("a plain file is read whole, up to its limit", () => {
  const path = join(folder, "a");
  writeFileSync(path, "x".repeat(10_000));
  const read = readPlainFile(path, 10_000);
  expect(read.kind === "read" && Buffer.from(read.bytes).toString()).toBe("x".repeat(10_000));
  expect(readPlainFile(path, 9_999)).toEqual({ kind: "too-large", size: 10_000 });
});

test("an empty file is empty", () => {
  writeFileSync(join(folder, "a"), "");
  expect(readPlainFile(join(folder, "a"), 10)).toMatchObject({ kind: "read", bytes: { length: 0 } });
});

test("what is not there is missing; a folder is a folder", () => {
  expect(readPlainFile(join(folder, "none"), 10)).toEqual({ kind: "missing" });
  writeFileSync(join(folder, "a"), "");
  expect(readPlainFile(join(folder, "a", "b"), 10)).toEqual({ kind: "missing" });
  mkdirSync(join(folder, "sub"));
  expect(readPlainFile(join(folder, "sub"), 10)).toEqual({ kind: "folder" });
});

test("a link is not followed: whoever resolved the path did that", () => {
  writeFileSync(join(folder, "a"), "x");
  symlinkSync(join(folder, "a"), join(folder, "link"));
  expect(readPlainFile(join(folder, "link"), 10)).toEqual({ kind: "other" });
});

test("a pipe nobody writes to does not keep anyone waiting", () => {
  expect(spawnSync("mkfifo", [join(folder, "pipe")]).status).toBe(0);
  expect(readPlainFile(join(folder, "pipe"), 10)).toEqual({ kind: "other" });
});

test.runIf(process.platform === "linux")("devices are not read", () => {
  for (const path of ["/dev/zero", "/dev/null"]) expect(readPlainFile(path, 10)).toEqual({ kind: "other" });
});

test("a socket is not read", async () => {
  const path = join(folder, "socket");
  const server = createServer();
  await new Promise<void>((resolve) => server.listen(path, resolve));
  expect(readPlainFile(path, 10)).toEqual({ kind: "other" });
  await new Promise((resolve) => server.close(resolve));
});

test.runIf(process.platform === "linux")("a file that says it is empty and is not is still measured", () => {
  expect(readPlainFile("/proc/self/status", 100_000)).toMatchObject({ kind: "read" });
  expect(readPlainFile("/proc/self/status", 10)).toEqual({ kind: "too-large", size: 11 });
});
