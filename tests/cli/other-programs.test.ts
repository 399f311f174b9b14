import { spawnSync } from "node:child_process";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { starterJob } from "../../src/job/starter/starter.ts";
import { copyJobs, inProcess, ROOT, scratch } from "./run.ts";

const folder = scratch();
copyJobs(join(folder, "jobs", "alder-lane"), "alder-lane");
const JOB = "jobs/alder-lane/2026-026.yaml";
const BAD = starterJob({ number: "bad", issued: "2026-03-14" }).replace("throat: 1.400", "throat: 1,400");
mkdirSync(join(folder, "bad"));
for (const name of ["one", "two"]) writeFileSync(join(folder, "bad", `${name}.yaml`), `${BAD}nonsense: 1\n`);

describe("one object for other programs", () => {
  test("make lists the sheets with their mark, which the register holds too, and the same again when nothing changed", async () => {
    const first = await inProcess(["make", JOB, "--json"], folder);
    const { sheets, diagnostics } = JSON.parse(first.out);
    expect([first.code, diagnostics]).toEqual([0, expect.any(Array)]);
    expect(sheets).toEqual([{ job: JOB, template: "attachment", file: expect.any(String), mark: expect.any(String) }]);
    expect(existsSync(join(folder, sheets[0].file))).toBe(true);
    expect(readFileSync(join(folder, "jobs", "alder-lane", "issued.csv"), "utf8")).toContain(sheets[0].mark);
    expect(JSON.parse((await inProcess(["make", JOB, "--json"], folder)).out)).toEqual({ sheets, diagnostics });
  });

  test("check gives each fault its place, and what is pasted is a job as well", async () => {
    const { code, out } = await inProcess(["check", "bad/one.yaml", "--json"], folder);
    const { sheets, diagnostics } = JSON.parse(out);
    expect([code, sheets]).toEqual([1, []]);
    const line = BAD.split("\n").length;
    const wanted = { severity: "error", code: "job/unknown-key", line, column: 1 };
    expect(diagnostics).toContainEqual(expect.objectContaining({ ...wanted, file: "bad/one.yaml" }));
    const pasted = await inProcess(["check", "-", "--json"], folder, undefined, `${BAD}nonsense: 1\n`);
    expect(pasted.code).toBe(1);
    expect(JSON.parse(pasted.out).diagnostics).toContainEqual(
      expect.objectContaining({ ...wanted, file: "pasted.yaml" }),
    );
    expect(existsSync(join(folder, "pasted.yaml"))).toBe(false);
  });

  test.each(["make", "check"])("%s names the refused jobs of a batch again in its last lines", async (command) => {
    const { code, err } = await inProcess([command, "bad", JOB], folder);
    expect(code).toBe(1);
    expect(err.trimEnd().split("\n").slice(-3, -1)).toEqual(["  refused: bad/one.yaml", "  refused: bad/two.yaml"]);
  });
});

describe("completion", () => {
  const script = async (shell: string) => (await inProcess(["completion", shell], ROOT)).out;
  const complete = async (...words: string[]) => {
    const line = words.map((word) => `"${word}"`).join(" ");
    const end = `COMP_WORDS=(${line}); COMP_CWORD=${words.length - 1}; _headsheet; printf '%s\n' "\${COMPREPLY[@]}"`;
    const { stdout, status, stderr } = spawnSync("bash", ["-c", `${await script("bash")}${end}`], {
      cwd: folder,
      encoding: "utf8",
    });
    expect([status, stderr]).toEqual([0, ""]);
    return stdout.trim().split("\n");
  };
  test("bash completes commands, options, words and jobs", async () => {
    expect(await complete("headsheet", "ma")).toEqual(["make", "mail"]);
    expect(await complete("headsheet", "make", "--pa")).toEqual(["--paper"]);
    expect(await complete("headsheet", "schema", "sh")).toEqual(["shop"]);
    expect(await complete("headsheet", "check", "bad/o")).toEqual(["bad/one.yaml"]);
    expect(await complete("headsheet", "--v")).toEqual(["--version"]);
  });
  test("bash completes the words of an option's value, and offers no option unasked", async () => {
    expect(await complete("headsheet", "make", "--paper", "")).toEqual(["A4", "Letter"]);
    expect(await complete("headsheet", "take", "x.csv", "--side", "e")).toEqual(["exhaust"]);
    expect(await complete("headsheet", "schema", "")).toEqual(["job", "shop", "template", "figures"]);
    expect((await complete("headsheet", "check", "")).filter((word) => !word.endsWith("/"))).toEqual([]);
    expect(await complete("headsheet", "new", "--from", "bad/t")).toEqual(["bad/two.yaml"]);
  });
  test.each(["zsh", "fish"])("%s: every command and option is in it", async (shell) => {
    const text = await script(shell);
    for (const word of ["make", "together", "completion", "new-stage", "A4 Letter", "intake exhaust"])
      expect(text).toContain(word);
  });
  test("another shell is wrong use", async () => {
    expect(await inProcess(["completion", "bsh"], ROOT)).toMatchObject({
      code: 2,
      err: expect.stringContaining("did you mean `bash`?"),
    });
  });
});

describe("new", () => {
  test("says which folder it made, and nothing where there was one", async () => {
    expect((await inProcess(["new", "fresh/a/mine.yaml"], folder)).err).toBe("made the folder `fresh/a`\n");
    expect((await inProcess(["new", "fresh/a/other.yaml"], folder)).err).toBe("");
  });
  test("--from with --sizes takes sizes and work, and no reading", async () => {
    const made = ["new", "jobs/alder-lane/next.yaml", "--from", "jobs/alder-lane/2026-014.yaml", "--sizes"];
    expect((await inProcess(made, folder)).code).toBe(0);
    const text = readFileSync(join(folder, "jobs/alder-lane/next.yaml"), "utf8");
    for (const wanted of ["name: Finished", "throat: 1.470", "work:"]) expect(text).toContain(wanted);
    expect(text).not.toMatch(/flow: \||runs:|test_pressure|air:/);
    expect((await inProcess(["new", "x.yaml", "--sizes"], folder)).code).toBe(2);
  });
});
