import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { disk } from "../../src/io/disk.ts";
import { loadProject } from "../../src/project/load-project.ts";
import { SHOP, SHORT_SET } from "./shop-texts.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "headsheet-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe("the disk itself", () => {
  test("a job is gathered from real files; a link out of the shop is refused", () => {
    mkdirSync(join(folder, "shop", "jobs"), { recursive: true });
    writeFileSync(join(folder, "shop", "shop.yaml"), SHOP);
    writeFileSync(join(folder, "secret.csv"), "lift,intake\n0.1,2\n");
    symlinkSync(join(folder, "secret.csv"), join(folder, "shop", "jobs", "link.csv"));
    const job = join(folder, "shop", "jobs", "a.yaml");
    writeFileSync(job, SHORT_SET);
    expect(loadProject(job, disk).diagnostics).toEqual([]);
    writeFileSync(job, `${SHORT_SET}photos: [ { file: link.csv } ]\n`);
    expect(loadProject(job, disk).diagnostics.map((each) => each.code)).toEqual(["project/path-outside"]);
  });
  test("devices are not files", () => expect(disk.stat("/dev/null")?.kind).toBe("other"));
  test("what is not there is undefined", () => {
    expect(disk.stat(join(folder, "none"))).toBeUndefined();
    expect(disk.realPath(join(folder, "none"))).toBeUndefined();
    expect(disk.listFolder(join(folder, "none"))).toEqual([]);
  });
});
