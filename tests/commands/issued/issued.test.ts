import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { issueKey } from "../../../src/commands/issued/register-text.ts";
import { HOST } from "../../../src/io/abandoned.ts";
import { inProcess, namesIn, scratch } from "../../cli/run.ts";

const folder = scratch();
let count = 0;

/** A desk with one starter job, which is no draft unless asked. */
async function desk(change: (text: string) => string = finished) {
  const cwd = join(folder, `${count++}`);
  expect((await inProcess(["new", join(cwd, "jobs/a.yaml")], folder)).code).toBe(0);
  const job = join(cwd, "jobs/a.yaml");
  const edit = (by: (text: string) => string) => writeFileSync(job, by(readFileSync(job, "utf8")));
  edit(change);
  const run = (...args: string[]) => inProcess(args, cwd);
  const make = (...more: string[]) => run("make", "jobs/a.yaml", ...more);
  const sheet = () => readFileSync(join(cwd, "out", namesIn(join(cwd, "out"))[0]!));
  const register = join(cwd, "jobs/issued.csv");
  const lines = () => readFileSync(register, "utf8").split("\n").slice(1, -1);
  return { cwd, edit, run, make, sheet, register, lines };
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
  expect(err).toContain(
    "error[make/issued]: `a` revision 1 was issued on 2026-03-14 as `a_rev1_handover_what-you-call-this-head_2026-03-14.pdf`",
  );
  expect(err).toContain("--> jobs/a.yaml:");
  expect(err).toContain("the register is jobs/issued.csv");
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
  expect([code, err]).toEqual([1, expect.stringContaining("was issued on 2026-03-14")]);
});

test("other words are refused as other numbers are, since a page says them; what no page says is free", async () => {
  const { edit, make, sheet } = await desk();
  await make();
  const before = sheet();
  edit((text) => text.replace("Guides not replaced", "Guides were left as they are"));
  expect((await make()).code).toBe(1);
  edit((text) => text.replace("Guides were left as they are", "Guides not replaced"));
  edit((text) => `${text}\ninternal: [ Bring back in spring ]\n# and a comment\n`);
  expect((await make()).code).toBe(0);
  expect(sheet().equals(before)).toBe(true);
});

test("no other way leads past the register: case, blank, head, file, template, date, force, another folder", async () => {
  const { cwd, edit, run, make, lines } = await desk();
  await make();
  edit(otherReading);
  const whole = readFileSync(join(cwd, "jobs/a.yaml"), "utf8");
  const ways: readonly [string, (text: string) => string][] = [
    ["case", (text) => text.replace('job: "a"', 'job: "A"').replace("job: a", "job: A")],
    ["blank", (text) => text.replace(/job: "?a"?/, 'job: " a "')],
    ["head", (text) => text.replace("What you call this head", "Renamed")],
    ["date", (text) => text.replace("issued: 2026-03-14", "issued: 2026-03-15")],
  ];
  for (const [way, change] of ways) {
    const text = change(whole);
    expect(text, way).not.toBe(whole);
    writeFileSync(join(cwd, "jobs/a.yaml"), text);
    const { code, err } = await make();
    expect([way, code, err]).toEqual([way, 1, expect.stringContaining("error[make/issued]")]);
  }
  writeFileSync(join(cwd, "jobs/a.yaml"), whole);
  mkdirSync(join(cwd, "kept"));
  for (const name of namesIn(join(cwd, "out"))) renameSync(join(cwd, "out", name), join(cwd, "kept", name));
  for (const more of [["--template", "engine"], ["--force"], ["--out", "elsewhere"], ["--units", "metric"]])
    expect([more, (await make(...more)).code]).toEqual([more, 1]);
  renameSync(join(cwd, "jobs/a.yaml"), join(cwd, "jobs/b.yaml"));
  for (const args of [["make"], ["card", "jobs/b.yaml"]]) {
    const { code, err } = await run(...args);
    expect([args, code, err]).toEqual([args, 1, expect.stringContaining("error[make/issued]")]);
  }
  expect(lines()).toHaveLength(1);
});

test("a dash that a word processor made longer makes no other ticket", () => {
  const keys = ["F-207", "f\u2011207", "F\u2013207", "F-\u200b207"].map((ticket) =>
    issueKey({ ticket, revision: "1" }),
  );
  expect(new Set(keys).size).toBe(1);
  expect(issueKey({ ticket: "F207", revision: "1" })).not.toBe(keys[0]);
});

test("all sheets, card and mail of a ticket and revision have one mark, and a line each, however often made", async () => {
  const { cwd, run, make, lines } = await desk();
  writeFileSync(join(cwd, "jobs/shop.yaml"), "shop: { name: Quay Heads, email: a@quay.example }\n");
  for (let round = 0; round < 2; round++) {
    await make("--template", "handover,attachment", "--force");
    expect((await run("card", "jobs/a.yaml")).code).toBe(0);
    expect((await run("mail", "jobs/a.yaml")).code).toBe(0);
  }
  const cells = lines().map((line) => line.split(","));
  expect(cells.map(([, ticket, revision, sheet]) => [ticket, revision, sheet])).toEqual(
    ["handover", "attachment", "card", "mail"].map((sheet) => ["a", "1", sheet]),
  );
  expect(new Set(cells.map((one) => one[5])).size).toBe(1);
  for (const one of cells) expect(namesIn(join(cwd, "out"))).toContain(one[4]);
});

test("the shop's bench and words are in the mark; its address, colours and fonts are not", async () => {
  const { cwd, make } = await desk();
  const shop = (text: string) => writeFileSync(join(cwd, "jobs/shop.yaml"), text);
  shop('shop: { name: Quay Heads, phone: "1", accent: "#8A3B12", warranty: 12 months }\nbench: { accuracy: 1.5 % }\n');
  expect((await make()).code).toBe(0);
  shop('shop: { name: Quay Heads, phone: "2", accent: "#1F4E5F", warranty: 12 months }\nbench: { accuracy: 1.5 % }\n');
  expect((await make()).code).toBe(0);
  for (const text of [
    "shop: { name: Quay Heads, warranty: 6 months }\nbench: { accuracy: 1.5 % }\n",
    "shop: { name: Quay Heads, warranty: 12 months }\nbench: { accuracy: 1.6 % }\n",
  ]) {
    shop(text);
    expect((await make()).code).toBe(1);
  }
});

test("without a register, the sheets that stand are entered once, and that is said", async () => {
  const { cwd, edit, make, register, lines } = await desk();
  await make("--template", "handover,attachment");
  const before = lines().toSorted();
  rmSync(register);
  edit(otherReading);
  const { code, err } = await make();
  expect([code, err]).toEqual([
    1,
    expect.stringMatching(/^jobs\/issued.csv: begun with 2 issued sheets found in out\n/),
  ]);
  expect(lines()).toEqual(before);
  expect((await make()).err).not.toContain("begun");
  // What the register no longer holds was taken out on purpose; the file goes the same way.
  writeFileSync(register, "date,ticket,revision,sheet,file,mark,figures\n");
  expect(await make()).toMatchObject({ code: 1, err: expect.stringContaining("error[make/issued-stands]") });
  rmSync(join(cwd, "out", namesIn(join(cwd, "out")).find((name) => name.includes("handover"))!));
  expect((await make()).code).toBe(0);
  expect(namesIn(join(cwd, "out"))).toHaveLength(2);
});

test("an unchanged job is looked at again when the register has lost it or says otherwise", async () => {
  const { make, register } = await desk();
  await make();
  const text = readFileSync(register, "utf8");
  expect((await make()).err).toContain("1 unchanged");
  rmSync(register);
  expect((await make()).err).toContain("begun with 1 issued sheet");
  expect(readFileSync(register, "utf8")).toBe(text);
  writeFileSync(register, text.replace(/[bcdfghjklmnpqrst]{12}/, "bcdfghjklmnp"));
  expect((await make()).code).toBe(1);
});

test("under another version of the figures, what stands is left as issued, and what is missing is an error", async () => {
  const { cwd, run, make, register, sheet } = await desk();
  await make();
  await run("card", "jobs/a.yaml");
  writeFileSync(register, readFileSync(register, "utf8").replaceAll(/,\d+$/gm, ",0"));
  const issued = sheet();
  const left = await make("--force");
  expect([left.code, left.err]).toEqual([0, expect.stringContaining("warning[make/left-as-issued]")]);
  expect(left.out).toMatch(/^out\/a_rev1_handover_.*\.pdf\n$/);
  expect(sheet().equals(issued)).toBe(true);
  expect((await run("card", "jobs/a.yaml")).code).toBe(0);
  const { code, err } = await make("--template", "handover,engine");
  expect([code, err]).toEqual([1, expect.stringContaining("error[make/issued-by-another-version]")]);
  for (const name of namesIn(join(cwd, "out"))) rmSync(join(cwd, "out", name));
  expect((await make()).code).toBe(1);
  expect((await run("card", "jobs/a.yaml")).code).toBe(1);
  expect(namesIn(join(cwd, "out"))).toEqual([]);
});

test("a register that a spreadsheet saved is read; a line that is none is said with its place", async () => {
  const { edit, make, register } = await desk();
  await make();
  const text = readFileSync(register, "utf8");
  edit(otherReading);
  const saved = `\ufeff${text.replaceAll(",", ";").replaceAll("\n", "\r\n")}`;
  for (const form of [saved, text.replaceAll(",", "\t"), text.trimEnd(), text.replace(/[^,\n]+/g, '"$&"')]) {
    writeFileSync(register, form);
    expect((await make()).code, form).toBe(1);
  }
  writeFileSync(register, `${text}2026-03-14,a,1,handover\n`);
  const { code, err } = await make();
  expect([code, err]).toEqual([1, expect.stringContaining("warning[make/register-line]")]);
  expect(err).toContain("--> jobs/issued.csv:3:1");
});

test("where the register cannot be what it is, nothing is issued, and that is said", async () => {
  const { cwd, make, register } = await desk();
  mkdirSync(register);
  const folderThere = await make();
  expect([folderThere.code, folderThere.err]).toEqual([2, expect.stringContaining("jobs/issued.csv")]);
  rmSync(register, { recursive: true });
  writeFileSync(join(cwd, "elsewhere"), "");
  symlinkSync(join(cwd, "elsewhere"), register);
  expect((await make()).code).toBe(2);
  expect(readFileSync(join(cwd, "elsewhere"), "utf8")).toBe("");
  expect(namesIn(cwd)).not.toContain("out");
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

test("a draft of an issued sheet is made beside it, said, and entered nowhere", async () => {
  const { cwd, edit, make, sheet, lines } = await desk();
  await make();
  const issued = sheet();
  edit((text) => otherReading(text).replace("customer:", "draft: true\ncustomer:"));
  const { code, err } = await make();
  expect(code).toBe(0);
  expect(lines()).toHaveLength(1);
  expect(err).toContain("warning[make/draft-over-issued]");
  expect(namesIn(join(cwd, "out"))).toEqual([
    expect.stringMatching(/_2026-03-14\.pdf$/),
    expect.stringMatching(/_draft\.pdf$/),
  ]);
  expect(sheet().equals(issued)).toBe(true);
});

test("a sheet that another folder's register knows is not replaced where it stands", async () => {
  const { cwd, edit, make, run, sheet } = await desk();
  await make();
  const issued = sheet();
  mkdirSync(join(cwd, "moved"));
  writeFileSync(
    join(cwd, "moved/b.yaml"),
    readFileSync(join(cwd, "jobs/a.yaml"), "utf8").replace(`job: "a"`, `job: "b"`),
  );
  expect((await run("make", "moved/b.yaml", "--out", "elsewhere")).code).toBe(0);
  edit(otherReading);
  renameSync(join(cwd, "jobs/a.yaml"), join(cwd, "moved/a.yaml"));
  const { code, err } = await run("make", "moved/a.yaml");
  expect([code, err]).toEqual([1, expect.stringContaining("error[make/issued-stands]")]);
  expect(sheet().equals(issued)).toBe(true);
});

test.each(["card", "mail"])("a %s of a job that was moved is not replaced", async (command) => {
  const { cwd, edit, run } = await desk();
  const shop = "shop: { name: Quay Heads, email: a@quay.example }\n";
  writeFileSync(join(cwd, "jobs/shop.yaml"), shop);
  expect((await run(command, "jobs/a.yaml")).code).toBe(0);
  const [name] = namesIn(join(cwd, "out")) as [string];
  const issued = readFileSync(join(cwd, "out", name));
  edit(otherReading);
  mkdirSync(join(cwd, "moved"));
  writeFileSync(join(cwd, "moved/shop.yaml"), shop);
  renameSync(join(cwd, "jobs/a.yaml"), join(cwd, "moved/a.yaml"));
  const { code, err } = await run(command, "moved/a.yaml");
  expect([code, err]).toEqual([1, expect.stringContaining("error[make/issued-stands]")]);
  expect(readFileSync(join(cwd, "out", name)).equals(issued)).toBe(true);
});

test("a sheet of the same mark under another name gets a line of its own", async () => {
  const { cwd, run, make, lines, register } = await desk();
  await make();
  writeFileSync(register, readFileSync(register, "utf8").replace("_what-you-call-this-head_", "_renamed_"));
  rmSync(join(cwd, "out"), { recursive: true });
  expect((await make()).code).toBe(0);
  expect((await run("make", "--force")).code).toBe(0);
  expect(lines().map((line) => line.split(",")[4])).toEqual([
    "a_rev1_handover_renamed_2026-03-14.pdf",
    "a_rev1_handover_what-you-call-this-head_2026-03-14.pdf",
  ]);
});

test("the index of a shelf is not written over an issued sheet", async () => {
  const { cwd, run, make, sheet } = await desk();
  await make();
  const issued = sheet();
  const [name] = namesIn(join(cwd, "out"));
  expect(await run("shelf", "--pdf", `out/${name}`)).toMatchObject({ code: 2, err: expect.stringContaining(name!) });
  expect(sheet().equals(issued)).toBe(true);
});

test("the temporary files of a killed run go with the next card, form or index", async () => {
  const { cwd, run } = await desk();
  for (const args of [
    ["card", "jobs/a.yaml"],
    ["form", "jobs/a.yaml"],
    ["shelf", "--pdf", "out/"],
  ]) {
    mkdirSync(join(cwd, "out"), { recursive: true });
    const litter = join(cwd, "out", `.headsheet-${HOST}-${2 ** 22 + 1}-0.tmp`);
    writeFileSync(litter, "");
    expect((await run(...args)).code).toBe(0);
    expect([args[0], existsSync(litter)]).toEqual([args[0], false]);
  }
});

test.each(["a;-2", "a; @7", "=1+1", "-a", "a\t|b"])("ticket %j is found again in the register", async (ticket) => {
  const { edit, make, lines } = await desk((text) =>
    finished(text).replace(/^job: .*$/m, `job: ${JSON.stringify(ticket)}`),
  );
  expect((await make()).code).toBe(0);
  edit(otherReading);
  expect((await make()).code).toBe(1);
  expect(lines()).toHaveLength(1);
});

test("a register that is no UTF-8 text stops the issue of anything", async () => {
  const { edit, make, sheet, register } = await desk();
  await make();
  const issued = sheet();
  writeFileSync(register, Buffer.from(`\ufeff${readFileSync(register, "utf8")}`, "utf16le"));
  edit(otherReading);
  const { code, err } = await make();
  expect([code, err]).toEqual([2, expect.stringContaining("not UTF-8 text, so save it as CSV in UTF-8")]);
  expect(sheet().equals(issued)).toBe(true);
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
