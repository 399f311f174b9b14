import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { inProcess, namesIn, scratch } from "../cli/run.ts";

const folder = scratch();
let count = 0;

/** A desk with one starter job, which is no draft unless asked. */
async function desk(change: (text: string) => string = finished) {
  const cwd = join(folder, `${count++}`);
  expect((await inProcess(["new", join(cwd, "jobs/a.yaml")], folder)).code).toBe(0);
  const job = join(cwd, "jobs/a.yaml");
  const edit = (by: (text: string) => string) => writeFileSync(job, by(readFileSync(job, "utf8")));
  edit(change);
  const make = (...more: string[]) => inProcess(["make", "jobs/a.yaml", ...more], cwd);
  const sheet = () => readFileSync(join(cwd, "out", namesIn(join(cwd, "out"))[0]!));
  return { cwd, edit, make, sheet };
}
const finished = (text: string) => text.replace(/^draft: true.*\n/m, "");
const otherReading = (text: string) => text.replace("158.1", "159.1");
const risen = (text: string) =>
  text.replace("customer:", "revision: 2\nreplaces: revision 1\nbecause: a reading was mistyped\ncustomer:");

test("a sheet with other figures is not overwritten: the file stays, the job is refused, and why is said", async () => {
  const { edit, make, sheet } = await desk();
  expect((await make()).code).toBe(0);
  const issued = sheet();
  edit(otherReading);
  const { code, out, err } = await make();
  expect({ code, out }).toEqual({ code: 1, out: "" });
  expect(err).toContain("error[make/issued]: `a_rev1_handover_what-you-call-this-head_2026-03-14.pdf` was issued");
  expect(err).toContain("raise `revision`");
  expect(sheet().equals(issued)).toBe(true);
});

test("with a higher revision that says what it replaces and why, both sheets stand", async () => {
  const { cwd, edit, make } = await desk();
  await make();
  edit((text) => risen(otherReading(text)));
  expect((await make()).code).toBe(0);
  expect(namesIn(join(cwd, "out"))).toHaveLength(2);
});

test("another day of issue does not make it another sheet", async () => {
  const { edit, make } = await desk();
  await make();
  edit((text) => otherReading(text).replace("issued: 2026-03-14", "issued: 2026-03-15"));
  const { code, err } = await make();
  expect([code, err]).toEqual([1, expect.stringContaining("_2026-03-14.pdf` was issued with other figures")]);
});

test("other words with the same figures are a correction of words, and are written", async () => {
  const { edit, make, sheet } = await desk();
  await make();
  const before = sheet();
  edit((text) => text.replace("Guides not replaced", "Guides were left as they are"));
  expect((await make()).code).toBe(0);
  expect(sheet().equals(before)).toBe(false);
});

test("a draft is replaced by whatever comes next", async () => {
  const { edit, make } = await desk((text) => text);
  expect((await make()).code).toBe(0);
  edit(otherReading);
  expect((await make()).code).toBe(0);
  edit((text) => finished(text.replace("120.2", "121.2")));
  expect((await make()).code).toBe(0);
  // And from now on it is issued.
  edit((text) => text.replace("121.2", "122.2"));
  expect((await make()).code).toBe(1);
});

test("a draft over an issued sheet is made, and said", async () => {
  const { edit, make } = await desk();
  await make();
  edit((text) => otherReading(text).replace("customer:", "draft: true\ncustomer:"));
  const { code, err } = await make();
  expect(code).toBe(0);
  expect(err).toContain("warning[make/draft-over-issued]");
});

test("files that are none of ours, or empty, are no issued sheets", async () => {
  const { cwd, edit, make } = await desk();
  await make();
  const [name] = namesIn(join(cwd, "out")) as [string];
  edit(otherReading);
  for (const bytes of ["", "%PDF-1.7\n", "<dc:identifier>a revision 1 figures zzzzzzzz</dc:identifier>"]) {
    writeFileSync(join(cwd, "out", name), bytes);
    expect((await make()).code).toBe(0);
  }
});

test("each sheet of a job is looked at before any is written", async () => {
  const { cwd, edit, make } = await desk((text) =>
    finished(text).replace("stages:", "sheet: [handover, attachment]\nstages:"),
  );
  await make();
  const out = join(cwd, "out");
  const [attachment, handover] = namesIn(out) as [string, string];
  rmSync(join(out, attachment));
  edit(otherReading);
  expect((await make()).code).toBe(1);
  expect(namesIn(out)).toEqual([handover]);
});
