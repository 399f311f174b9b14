import {
  chmodSync,
  chownSync,
  closeSync,
  linkSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  openSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  unlinkSync,
  writeFileSync,
  writeSync,
} from "node:fs";
import { hostname, tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { saveOver } from "../../src/io/save-over.ts";
import { atCalls } from "./at-call.ts";

let folder = "";
let job = "";
const { original, replace, around } = atCalls();
beforeEach(() => {
  folder = realpathSync.native(mkdtempSync(join(tmpdir(), "headsheet-")));
  job = join(folder, "a.yaml");
  writeFileSync(job, "before");
});
afterEach(() => {
  rmSync(folder, { recursive: true, force: true });
});

const BEFORE = Buffer.from("before");
const save = () => saveOver(job, BEFORE, "ours");
const contents = () => readdirSync(folder).map((name) => readFileSync(join(folder, name), "utf8"));
const isSide = (name: string) => name.startsWith("a.yaml.other-version-");

/** The two ways in which editors save. */
const EDITORS: Record<string, () => void> = {
  "in place": () => writeFileSync(job, "theirs"),
  "by rename": () => {
    writeFileSync(`${job}~`, "theirs");
    original.renameSync(`${job}~`, job);
  },
};

test("over the text that was read: nothing is left beside it", () => {
  expect(save()).toEqual({ kind: "saved" });
  expect([readdirSync(folder), readFileSync(job, "utf8")]).toEqual([["a.yaml"], "ours"]);
});

test("without a file before, only where there is still none", () => {
  expect(saveOver(job, undefined, "ours")).toEqual({ kind: "changed" });
  unlinkSync(job);
  expect(saveOver(job, undefined, "ours")).toEqual({ kind: "saved" });
  expect(contents()).toEqual(["ours"]);
});

test("a disk that fails at the last step loses neither the old text nor another program's", () => {
  for (const [standing, change] of [
    ["before", () => {}],
    ["theirs", EDITORS["by rename"]!],
  ] as const) {
    writeFileSync(job, "before");
    let calls = 0;
    replace("renameSync", (from, to) => {
      if (calls++ === 0) change();
      if (calls === 2) throw Object.assign(new Error("failed"), { code: "EIO", syscall: "rename" });
      original.renameSync(from, to);
    });
    expect(save).toThrow("failed");
    expect(contents()).toEqual([standing]);
  }
});

test("mode, owner and group are kept", () => {
  chmodSync(job, 0o640);
  if (process.getuid?.() === 0) chownSync(job, 1234, 2345);
  const { uid, gid, mode } = statSync(job);
  expect(save()).toEqual({ kind: "saved" });
  expect(statSync(job)).toMatchObject({ uid, gid, mode });
});

test("a read-only file is not saved over, whoever asks", () => {
  chmodSync(job, 0o444);
  expect(save()).toEqual({ kind: "refused", why: "the file is read-only: nothing was saved" });
  expect(contents()).toEqual(["before"]);
});

describe.each(Object.keys(EDITORS))("an editor that saves %s", (kind) => {
  const theirs = EDITORS[kind]!;
  test("before the old text is put aside: nothing is saved, and theirs stands", () => {
    around("linkSync", "before", theirs);
    expect(save()).toEqual({ kind: "changed" });
    expect(contents()).toEqual(["theirs"]);
  });
  test("just after that: the same", () => {
    around("linkSync", "after", theirs);
    expect(save()).toEqual({ kind: "changed" });
    expect(contents()).toEqual(["theirs"]);
  });
  test("just after the new text is in place: theirs stands", () => {
    around("renameSync", "after", theirs, "/a.yaml");
    expect(save()).toEqual({ kind: "saved" });
    expect(contents()).toEqual(["theirs"]);
  });
});

describe("a version that was replaced unseen stays beside the job under a name that says so", () => {
  test.each(Object.keys(EDITORS))("saved %s just before the rename", (kind) => {
    around("renameSync", "before", EDITORS[kind]!);
    const { otherVersion = "" } = save() as { otherVersion?: string };
    expect(otherVersion).toSatisfy(isSide);
    expect(readFileSync(join(folder, otherVersion), "utf8")).toBe("theirs");
    expect(readFileSync(job, "utf8")).toBe("ours");
  });
  test("written in place after the last look at it", () => {
    around("renameSync", "before", EDITORS["in place"]!, "/a.yaml");
    expect(save()).toMatchObject({ kind: "saved", otherVersion: expect.toSatisfy(isSide) });
    expect(contents().toSorted()).toEqual(["ours", "theirs"]);
  });
  test("written by an editor that had the old file open", () => {
    const file = openSync(job, "r+");
    around("renameSync", "after", () => writeSync(file, "theirs"), "/a.yaml");
    const { otherVersion = "" } = save() as { otherVersion?: string };
    writeSync(file, " and more");
    closeSync(file);
    expect(readFileSync(join(folder, otherVersion), "utf8")).toBe("theirs and more");
  });
  test("two of them get two names", () => {
    for (const _ of "ab") {
      writeFileSync(job, "before");
      around("renameSync", "before", EDITORS["in place"]!);
      expect(save()).toMatchObject({ kind: "saved", otherVersion: expect.any(String) });
    }
    expect(contents().toSorted()).toEqual(["ours", "theirs", "theirs"]);
  });
  test("on a disk without hard links, what was written before the copy was made", () => {
    replace("linkSync", () => {
      throw Object.assign(new Error("no links"), { code: "EPERM", syscall: "link" });
    });
    expect(save()).toEqual({ kind: "saved" });
    expect(contents()).toEqual(["ours"]);
    writeFileSync(job, "theirs");
    expect(save()).toEqual({ kind: "changed" });
    expect(contents()).toEqual(["theirs"]);
  });
});

describe("links that have come since the path was resolved are not followed", () => {
  test("in the place of the file", () => {
    writeFileSync(join(folder, "elsewhere"), "before");
    unlinkSync(job);
    symlinkSync(join(folder, "elsewhere"), job);
    expect(save()).toEqual({ kind: "changed" });
    expect(lstatSync(job).isSymbolicLink()).toBe(true);
    expect(contents()).toEqual(["before", "before"]);
  });

  test("of the folder, and of one above it", () => {
    const [deep, moved] = [join(folder, "jobs", "deep"), join(folder, "moved")];
    mkdirSync(deep, { recursive: true });
    writeFileSync(join(deep, "b.yaml"), "before");
    for (const swapped of [deep, join(folder, "jobs")]) {
      renameSync(swapped, moved);
      symlinkSync(moved, swapped);
      expect(saveOver(join(deep, "b.yaml"), BEFORE, "ours")).toEqual({
        kind: "refused",
        why: "a link stands where the folder of the job was: nothing was saved",
      });
      unlinkSync(swapped);
      renameSync(moved, swapped);
    }
    expect([readdirSync(deep), readFileSync(join(deep, "b.yaml"), "utf8")]).toEqual([["b.yaml"], "before"]);
  });

  test.runIf(process.platform === "linux")("also of a folder that is swapped in the middle of the save", () => {
    const [jobs, moved, other] = ["jobs", "moved", "other"].map((name) => join(folder, name)) as [
      string,
      string,
      string,
    ];
    for (const path of [jobs, other]) {
      mkdirSync(path);
      writeFileSync(join(path, "b.yaml"), "before");
    }
    around("linkSync", "before", () => {
      original.renameSync(jobs, moved);
      symlinkSync(other, jobs);
    });
    expect(saveOver(join(jobs, "b.yaml"), BEFORE, "ours")).toEqual({ kind: "saved" });
    expect(readFileSync(join(other, "b.yaml"), "utf8")).toBe("before");
    expect(readdirSync(other)).toEqual(["b.yaml"]);
    expect(readFileSync(join(moved, "b.yaml"), "utf8")).toBe("ours");
  });
});

describe("what a killed save left", () => {
  const host = hostname().replace(/[^A-Za-z0-9]+/g, "-");
  /** Higher than any process number that Linux gives (kernel: PID_MAX_LIMIT is 2 to the 22nd). */
  const NOBODY = 2 ** 22 + 1;
  const side = (pid: number) => join(folder, `a.yaml.other-version-${host}-${pid}-0`);

  test("goes with the next save if it is the job itself", () => {
    linkSync(job, side(NOBODY));
    writeFileSync(join(folder, `.headsheet-${host}-${NOBODY}-0.tmp`), "half");
    expect(save()).toEqual({ kind: "saved" });
    expect(contents()).toEqual(["ours"]);
  });
  test("stays if it is another version, or that of a save at work", () => {
    writeFileSync(side(NOBODY), "earlier");
    writeFileSync(side(process.ppid), "before");
    expect(save()).toEqual({ kind: "saved" });
    expect(contents().toSorted()).toEqual(["before", "earlier", "ours"]);
  });
});
