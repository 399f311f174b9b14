import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { disk } from "../../src/io/disk.ts";
import { writeBesideThenRename } from "../../src/io/write-beside-then-rename.ts";
import { gather } from "../../src/project/gather.ts";
import { SHOP, SHORT_SET } from "./shop-texts.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "headsheet-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe("writing beside, then renaming", () => {
  test("a new file, its folders made, nothing left beside it", () => {
    const path = join(folder, "out", "a.pdf");
    writeBesideThenRename(path, new Uint8Array([1, 2, 3]));
    expect([...readFileSync(path)]).toEqual([1, 2, 3]);
    expect(readdirSync(join(folder, "out"))).toEqual(["a.pdf"]);
  });
  test("over what was there", () => {
    const path = join(folder, "a.txt");
    writeBesideThenRename(path, "old, and longer than the new");
    writeBesideThenRename(path, "new");
    expect(readFileSync(path, "utf8")).toBe("new");
  });
  test("a failure leaves what was there, and no half file", () => {
    const path = join(folder, "taken");
    mkdirSync(join(path, "inside"), { recursive: true });
    expect(() => writeBesideThenRename(path, "x")).toThrow();
    expect(readdirSync(folder)).toEqual(["taken"]);
  });
  test("a file of the temporary's name is stepped over, not written to", () => {
    const squatter = join(folder, `.a.txt.${process.pid}-0.tmp`);
    writeFileSync(squatter, "mine");
    writeBesideThenRename(join(folder, "a.txt"), "x");
    expect(readFileSync(squatter, "utf8")).toBe("mine");
  });
});

describe("the disk itself", () => {
  test("a job is gathered from real files; a link out of the shop is refused", () => {
    mkdirSync(join(folder, "shop", "jobs"), { recursive: true });
    writeFileSync(join(folder, "shop", "shop.yaml"), SHOP);
    writeFileSync(join(folder, "secret.csv"), "lift,intake\n0.1,2\n");
    symlinkSync(join(folder, "secret.csv"), join(folder, "shop", "jobs", "link.csv"));
    const job = join(folder, "shop", "jobs", "a.yaml");
    writeFileSync(job, SHORT_SET);
    expect(gather(job, disk).diagnostics).toEqual([]);
    writeFileSync(job, `${SHORT_SET}photos: [ { file: link.csv } ]\n`);
    expect(gather(job, disk).diagnostics.map((each) => each.code)).toEqual(["project/path-outside"]);
  });
  test("devices are not files", () => expect(disk.stat("/dev/null")?.kind).toBe("other"));
  test("what is not there is undefined", () => {
    expect(disk.stat(join(folder, "none"))).toBeUndefined();
    expect(disk.realPath(join(folder, "none"))).toBeUndefined();
    expect(disk.listFolder(join(folder, "none"))).toEqual([]);
  });
});
