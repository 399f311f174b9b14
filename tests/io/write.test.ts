import { execFileSync } from "node:child_process";
import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { hostname, tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { createFile } from "../../src/io/create-file.ts";
import { describeSystemError } from "../../src/io/system-errors.ts";
import { removeStaleTempFiles } from "../../src/io/temporary-file.ts";
import { writeAtomically } from "../../src/io/write-atomically.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "headsheet-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const HOST = hostname().replace(/[^A-Za-z0-9]+/g, "-");
const temporary = (pid: number, number = 0, host = HOST) => join(folder, `.headsheet-${host}-${pid}-${number}.tmp`);
/** Higher than any process number that Linux gives (kernel: PID_MAX_LIMIT is 2 to the 22nd). */
const NOBODY = 2 ** 22 + 1;

const thrown = (write: () => unknown): NodeJS.ErrnoException => {
  try {
    write();
  } catch (error) {
    return error as NodeJS.ErrnoException;
  }
  throw new Error("nothing was thrown");
};

describe("writing beside, then renaming", () => {
  test("a new file, its folders made, nothing left beside it", () => {
    const path = join(folder, "out", "a.pdf");
    writeAtomically(path, new Uint8Array([1, 2, 3]));
    expect([...readFileSync(path)]).toEqual([1, 2, 3]);
    expect(readdirSync(join(folder, "out"))).toEqual(["a.pdf"]);
  });
  test("over what was there, rights kept", () => {
    const path = join(folder, "a.txt");
    writeAtomically(path, "old, and longer than the new");
    chmodSync(path, 0o600);
    writeAtomically(path, "new");
    expect(readFileSync(path, "utf8")).toBe("new");
    expect(statSync(path).mode & 0o777).toBe(0o600);
  });
  test("a folder in the way: it stays, no half file is left, and the failure names what was wanted", () => {
    const path = join(folder, "taken");
    mkdirSync(join(path, "inside"), { recursive: true });
    const failure = thrown(() => writeAtomically(path, "x"));
    expect(describeSystemError(failure)).toBe(`a folder stands where the file should go: \`${path}\``);
    expect(readdirSync(folder)).toEqual(["taken"]);
    expect(readdirSync(path)).toEqual(["inside"]);
  });
  test("a file where a folder should be", () => {
    writeFileSync(join(folder, "out"), "mine");
    const failure = thrown(() => writeAtomically(join(folder, "out", "a.pdf"), "x"));
    expect(describeSystemError(failure)).toContain(join(folder, "out", "a.pdf"));
    expect(readFileSync(join(folder, "out"), "utf8")).toBe("mine");
  });
  test("a link in the way is replaced itself; what it leads to is not written", () => {
    writeFileSync(join(folder, "elsewhere"), "theirs");
    mkdirSync(join(folder, "out"));
    const path = join(folder, "out", "a.pdf");
    symlinkSync(join(folder, "elsewhere"), path);
    writeAtomically(path, "sheet");
    expect(readFileSync(join(folder, "elsewhere"), "utf8")).toBe("theirs");
    expect(readFileSync(path, "utf8")).toBe("sheet");
    expect(() => readlinkSync(path)).toThrow();
  });
  test("a link laid where the temporary file should go is stepped over, not written through", () => {
    writeFileSync(join(folder, "victim"), "theirs");
    symlinkSync(join(folder, "victim"), temporary(process.pid));
    writeAtomically(join(folder, "a.txt"), "x");
    expect(readFileSync(join(folder, "victim"), "utf8")).toBe("theirs");
    expect(readFileSync(join(folder, "a.txt"), "utf8")).toBe("x");
  });
  test("a name of 300 characters is more than disks take: said in words", () => {
    const failure = thrown(() => writeAtomically(join(folder, "x".repeat(300)), "x"));
    expect(describeSystemError(failure)).toContain("the name is too long");
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe("a new file", () => {
  test("is written whole, with its folders", () => {
    expect(createFile(join(folder, "jobs", "a.yaml"), "job: 1")).toBe(true);
    expect(readFileSync(join(folder, "jobs", "a.yaml"), "utf8")).toBe("job: 1");
    expect(readdirSync(join(folder, "jobs"))).toEqual(["a.yaml"]);
  });
  test.each([
    ["file", (path: string) => writeFileSync(path, "mine")],
    ["folder", (path: string) => mkdirSync(path)],
    ["link that leads nowhere", (path: string) => symlinkSync(join(folder, "none"), path)],
  ])("never goes over a %s", (_, put) => {
    const path = join(folder, "a.yaml");
    put(path);
    expect(createFile(path, "job: 1")).toBe(false);
    expect(readdirSync(folder)).toEqual(["a.yaml"]);
  });
});

describe("litter of killed runs", () => {
  test("is taken away when its process is gone; what a run at work holds, stays", () => {
    for (const path of [temporary(NOBODY), temporary(NOBODY, 7), temporary(process.ppid)]) writeFileSync(path, "half");
    removeStaleTempFiles(folder);
    expect(readdirSync(folder)).toEqual([temporary(process.ppid).slice(folder.length + 1)]);
  });
  test("of our own number is an earlier run's if it is older than this one", () => {
    writeFileSync(temporary(process.pid, 0), "half");
    writeFileSync(temporary(process.pid, 1), "half");
    utimesSync(temporary(process.pid, 0), 1, 1);
    removeStaleTempFiles(folder);
    expect(readdirSync(folder)).toEqual([temporary(process.pid, 1).slice(folder.length + 1)]);
  });
  test("of another machine, or of a number that is taken again, goes by age", () => {
    const theirs = temporary(NOBODY, 0, `not-${HOST}`);
    const again = temporary(process.ppid);
    for (const path of [theirs, again]) writeFileSync(path, "half");
    removeStaleTempFiles(folder);
    expect(readdirSync(folder)).toHaveLength(2);
    removeStaleTempFiles(folder, statSync(theirs).mtimeMs + 2 * 60 * 60 * 1000);
    expect(readdirSync(folder)).toEqual([]);
  });
  test("is nothing but what is named like it and is a plain file", () => {
    const others = ["a.tmp", `.headsheet-${HOST}-x-0.tmp`, `.headsheet-${HOST}-${NOBODY}-0.tmp.pdf`, ".a.pdf.1-0.tmp"];
    for (const name of others) writeFileSync(join(folder, name), "mine");
    mkdirSync(temporary(NOBODY, 1));
    symlinkSync(join(folder, "a.tmp"), temporary(NOBODY, 2));
    const before = readdirSync(folder);
    removeStaleTempFiles(folder);
    expect(readdirSync(folder)).toEqual(before);
  });
  test("in a folder that is not there is none", () =>
    expect(() => removeStaleTempFiles(join(folder, "none"))).not.toThrow());
});

test.skipIf(process.platform === "win32")("a pipe or a device at the path is not replaced by a file", () => {
  const pipe = join(folder, "pipe");
  execFileSync("mkfifo", [pipe]);
  expect(thrown(() => writeAtomically(pipe, "x"))).toMatchObject({ code: "EEXIST", path: pipe });
  expect(statSync(pipe).isFIFO()).toBe(true);
  expect(readdirSync(folder)).toEqual(["pipe"]);
});
