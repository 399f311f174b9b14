import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { run, showsColour } from "../../src/cli/main.ts";
import { fitLines } from "../../src/commands/fit-width.ts";
import { columnsOfText } from "../../src/diagnostics/visible.ts";
import { inProcess, quietWorld, ROOT, scratch } from "./run.ts";

const folder = scratch();
const JOB = "jobs/alder-lane/2026-014.yaml";
const OTHER = "jobs/alder-lane/2026-040.yaml";

/** What a command prints on a terminal of so many columns. */
async function printed(args: readonly string[], width: number): Promise<string> {
  let text = "";
  const out = (part: string) => {
    text += part;
  };
  await run(args, { ...quietWorld(ROOT), out, width });
  return text;
}

describe("nothing is wider than the terminal", () => {
  const COMMANDS = "make check figures mail form card new take schema shelf diff watch completion help".split(" ");
  test.each([
    ["--help"],
    ...COMMANDS.map((name) => [name, "--help"]),
    ["figures", JOB],
    ["diff", JOB, OTHER],
    ["shelf", "jobs/alder-lane", "--no-cache"],
    ["shelf", "jobs/alder-lane", "--near", JOB, "--no-cache"],
  ])("%s %s", async (...args) => {
    const lines = (await printed(args, 60)).split("\n");
    expect(lines.length).toBeGreaterThan(5);
    expect(lines.filter((line) => columnsOfText(line) > 60)).toEqual([]);
  });

  test("figures lose columns that follow from others, which is said, and none where there is room", async () => {
    expect(await printed(["figures", JOB], 60)).toMatch(
      /lift in +flow cfm +± +Cd min.*\n[\s\S]*left out, too narrow: lift÷dia/,
    );
    const whole = await printed(["figures", JOB], 200);
    expect(whole).toBe((await inProcess(["figures", JOB], ROOT)).out);
    expect(whole).not.toContain("left out");
  });

  test("what is wrapped is indented further, and an example stays one command", () => {
    expect(fitLines("  a long line of words\nshort", 14)).toBe("  a long\n    line of\n    words\nshort");
    expect(fitLines("Example: headsheet make jobs/mine.yaml", 30)).toBe("Example: headsheet make \\\n  jobs/mine.yaml");
  });
});

describe("colour of messages", () => {
  test.each([
    [[], {}, true, true],
    [[], {}, false, false],
    [[], { TERM: "dumb" }, true, false],
    [[], { NO_COLOR: "1" }, true, false],
    [[], { NO_COLOR: "" }, true, true],
    [[], { FORCE_COLOR: "1" }, false, true],
    [[], { FORCE_COLOR: "" }, false, true],
    [[], { FORCE_COLOR: "0" }, true, false],
    [[], { FORCE_COLOR: "1", TERM: "dumb" }, true, true],
    [[], { FORCE_COLOR: "1", NO_COLOR: "1" }, true, false],
    [["check", "--no-color"], { FORCE_COLOR: "1" }, true, false],
  ])("%j with %j, terminal %s: %s", (argv, variables, terminal, shown) => {
    expect(showsColour(argv, variables, terminal)).toBe(shown);
  });

  test("every command takes --no-color", async () => {
    expect(await inProcess(["check", JOB, "--no-color"], ROOT)).toMatchObject({ code: 0 });
    expect(await inProcess(["--no-color", "check", JOB], ROOT)).toMatchObject({ code: 0 });
  });
});

describe("a slip in a name is said", () => {
  test.each([
    [["help", "nosuch"], 2, "there is no command `nosuch`\n"],
    [["help", "mak"], 2, "there is no command `mak`: did you mean `make`?"],
    [["watch", "nosuch.yaml"], 2, "there is no `nosuch.yaml`: name a job file or a folder"],
    [["check", "jobs/alder-lane/shop.yaml"], 1, "`shop.yaml` is the shop of the jobs around it, not a job"],
  ] as const)("%j", async (args, code, words) => {
    const ran = await inProcess(args, ROOT);
    expect(ran).toMatchObject({ code, out: "", err: expect.stringContaining(words) });
  });

  test("a form for a stage that the job lacks is made, with a hint", async () => {
    const form = (stage: string) => inProcess(["form", join(ROOT, JOB), "--stage", stage], folder);
    expect(await form("Finihed")).toMatchObject({
      code: 0,
      err: expect.stringContaining(
        "no stage `Finihed` in the job yet: the form is for a new one; did you mean `Finished`?",
      ),
    });
    expect((await form("Flow bench two")).err).toContain("the job has `As received`, `Finished`");
    expect((await form("finished")).err).not.toContain("no stage");
  });

  test("help explains a command, or all", async () => {
    for (const [args, same] of [
      [["help"], ["--help"]],
      [
        ["help", "make"],
        ["make", "--help"],
      ],
    ] as const)
      expect(await inProcess(args, ROOT)).toEqual(await inProcess(same, ROOT));
  });
});
