import { chmodSync, lstatSync, readdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { describeImport } from "../../src/commands/take/describe-import.ts";
import { editStage } from "../../src/commands/take/edit-stage.ts";
import type { Target } from "../../src/commands/take/find-place.ts";
import { parsePasted } from "../../src/commands/take/parse-pasted.ts";
import { formatTable } from "../../src/commands/take/table-text.ts";
import { parsePastedOptions, type ReadingOptions } from "../../src/commands/take/take-options.ts";
import { render } from "../../src/diagnostics/render.ts";
import { disk } from "../../src/io/disk.ts";
import type { Io } from "../../src/io/io.ts";
import { readJob } from "../../src/job/read-job.ts";
import { starterJob } from "../../src/job/starter/starter.ts";
import { decodeBytes } from "../../src/parse/decode-bytes.ts";
import { atCalls } from "../io/at-call.ts";
import { inProcess, scratch } from "./run.ts";

const folder = scratch();
const { around } = atCalls();
const STARTER = starterJob({ number: "mine", issued: "2026-03-14" });
const put = (name: string, text: string | Uint8Array) => writeFileSync(join(folder, name), text);
const read = (name: string) => readFileSync(join(folder, name), "utf8");
const headsheet = (args: readonly string[], pasted = "", io: Io = disk) => inProcess(args, folder, io, pasted);

const BENCH = { units: { length: "in", flow: "cfm", pressure: "inH2O" }, reads: "flow" } as const;

/** A table as the job would hold it, or why it is refused. */
function understand(table: string | Uint8Array, options: ReadingOptions = {}) {
  const decoded = decodeBytes(typeof table === "string" ? Buffer.from(table) : table);
  if (decoded.kind === "other") throw new Error(decoded.what);
  const { pasted, diagnostics } = parsePasted("bench.txt", decoded.text, parsePastedOptions(options), BENCH);
  const err = render(diagnostics, new Map([["bench.txt", decoded.text]]));
  const lines = pasted
    ? formatTable(pasted.head, pasted.rows).lines.map((line) => line.trim().replace(/ +/g, " "))
    : undefined;
  return {
    lines,
    err,
    said: pasted && describeImport({ name: "bench.txt", encoding: decoded.encoding }, pasted).join("\n"),
  };
}

const utf16 = (text: string, big = false) => {
  const bytes = Buffer.from(`\ufeff${text}`, "utf16le");
  return big ? bytes.swap16() : bytes;
};
const TABLE = ["lift intake exhaust", "0.1 43.0 34.1", "0.3 121.4 85.8"];

describe("a table is understood", () => {
  test.each<[string, string | Uint8Array, string[], ReadingOptions?]>([
    ["between blanks, as typed", "lift  intake  exhaust\n0.1  43.0 34.1\n0.3 121.4  85.8\n", TABLE],
    ["comma separated", "lift,intake,exhaust\n0.1,43.0,34.1\n0.3,121.4,85.8", TABLE],
    ["tabs, as a spreadsheet copies", "Lift\tIntake\tExhaust\n0.1\t43.0\t34.1\n0.3\t121.4\t85.8\n", TABLE],
    ["semicolons and decimal commas", "Valve lift;Int.;Exh.\r\n0,1;43,0;34,1\r\n0,3;121,4;85,8\r\n\r\n\r\n", TABLE],
    ["blanks and decimal commas", "L in ex\n0,1 43,0 34,1\n0,3 121,4 85,8\n", TABLE],
    ["decimal commas in quotes", '"lift","inlet","outlet"\n"0,1","43,0","34,1"\n"0,3","121,4","85,8"\n', TABLE],
    ["a byte order mark", "\ufefflift,intake,exhaust\n0.1,43.0,34.1\n0.3,121.4,85.8\n", TABLE],
    ["UTF-16, either way round", utf16("lift\tintake\texhaust\r\n0.1\t43.0\t34.1\r\n0.3\t121.4\t85.8\r\n"), TABLE],
    ["UTF-16, the other way", utf16("lift\tintake\texhaust\r\n0.1\t43.0\t34.1\r\n0.3\t121.4\t85.8\r\n", true), TABLE],
    ["UTF-16 without a mark", utf16("lift\tintake\texhaust\n0.1\t43.0\t34.1\n0.3\t121.4\t85.8").subarray(2), TABLE],
    [
      "Latin-1, with lines above the head and a column that is left out",
      Buffer.from(
        "Pr\u00fcfstand 1; 21 \u00b0C\nZeit;lift;intake;exhaust\n1;0,1;43,0;34,1\n2;0,3;121,4;85,8\n",
        "latin1",
      ),
      TABLE,
    ],
    [
      "units in the head, other than the job's",
      "lift (mm),Flow intake [l/s],exhaust/cfm\n2.54,20.3,34.1\n7.62,57.3,85.8\n",
      ["lift/mm intake/l/s exhaust", "2.54 20.3 34.1", "7.62 57.3 85.8"],
    ],
    [
      "units on a line of their own",
      "lift;intake;exhaust\n[mm];[l/s];[l/s]\n2.5;20;16\n7.5;57;40\n",
      ["lift/mm intake/l/s exhaust/l/s", "2.5 20 16", "7.5 57 40"],
    ],
    [
      "a head between blanks with units",
      "Valve lift (mm)  Intake (l/s)\n2.5  20\n7.5  57\n",
      ["lift/mm intake/l/s", "2.5 20", "7.5 57"],
    ],
    [
      "marks, empty cells, comments and a column of remarks",
      "lift,intake,exhaust,note\n0.1,43?,~34,dial slipped\n0.2,80!,,\n# valve 2\n0.3,n/a,–, \n0.4,140,99, # windy\n0.3,121,86,\n",
      [
        "lift intake exhaust",
        "0.1 43? ~34 # dial slipped",
        "0.2 80! -",
        "# valve 2",
        "0.3 - -",
        "0.4 140 99 # windy",
        "0.3 121 86",
      ],
    ],
    [
      "lift and flow of one side",
      "lift,flow\n0.1,43.0\n0.3,121.4\n",
      ["lift intake", "0.1 43.0", "0.3 121.4"],
      { side: "intake" },
    ],
    ["numbers alone, the columns said", "0.1 43.0 34.1\n0.3 121.4 85.8\n", TABLE, { columns: "lift,intake,exhaust" }],
    ["numbers alone with decimal commas", "0,1 43,0 34,1\n0,3 121,4 85,8\n", TABLE, { columns: "lift,intake,exhaust" }],
    [
      "a head in another language, the columns said, its units kept",
      "Hub [mm];Nr;Einlass [l/s]\n2,5;1;20\n7,5;2;57\n",
      ["lift/mm intake/l/s", "2.5 20", "7.5 57"],
      { columns: "lift,-,intake" },
    ],
    [
      "units said",
      "lift,intake\n2.5,20\n7.5,57\n",
      ["lift/mm intake/l/s", "2.5 20", "7.5 57"],
      { units: "length=mm,flow=l/s" },
    ],
    [
      "separator and decimal mark said",
      "lift;intake\n0,1;43\n0,3;121\n",
      ["lift intake", "0.1 43", "0.3 121"],
      { separator: "semicolon", decimal: "comma" },
    ],
    [
      "pressures beside the readings",
      "lift,intake,pressure (kPa)\n0.1,43,7\n0.3,121,6.9\n",
      ["lift intake pressure/kPa", "0.1 43 7", "0.3 121 6.9"],
    ],
    ["a fraction of an inch", "lift,intake\n1/8 in,43\n5/16 in,121\n", ["lift intake", "1/8in 43", "5/16in 121"]],
  ])("%s", (_, text, wanted, options) => {
    const { lines, err } = understand(text, options);
    expect([err, lines]).toEqual(["", wanted]);
  });

  test("the import is described", () => {
    const { said } = understand("log\nlift (mm);intake;exhaust;time\n2,54;43?;34,1;1\n7,62;121,4;-;2\n");
    expect(said).toContain("semicolon between columns, decimal comma");
    expect(said).toContain("columns: lift (mm), intake (cfm), exhaust (cfm)");
    expect(said).toContain("left out: 1 line above the head, column `time`");
    expect(said).toContain("2 rows, 4 readings, 1 doubtful, 1 not taken");
  });
});

describe("what could be read wrong is refused, with its place in the readings, and nothing is written", () => {
  test.each<[string, string | Uint8Array, string, string?, ReadingOptions?]>([
    ["a web page", "<!doctype html>", "is a web page"],
    ["nothing", " \n\n", "there is nothing here"],
    ["thousands", "lift;intake\n0,1;43\n0,3;1.121,4\n", "`1.121,4` has a mark between its thousands", ":3:5"],
    ["thousands, the other way", 'lift,intake\n0.1,43\n0.3,"1,121.4"\n', "between its thousands", ":3:"],
    [
      "a comma here, a point there",
      "lift;intake\n0.1;43\n0.3;121,4\n",
      "`121,4` has a comma and `0.1` a point",
      ":3:5",
    ],
    ["commas for both", "lift,intake,exhaust\n0,1,43,0,34,1\n", "has 6 values", "Export with ;"],
    [
      "a half row",
      "lift,intake,exhaust\n0.1,43.0,34.1\n0.3,121.4\n",
      "row `0.3` has 2 values, the head names 3 columns",
      ":3:1",
    ],
    ["no lift", "valve;intake\n0.1;43\n", "no line with a column `lift`", "--columns"],
    ["no head", "0.1 43\n0.3 121\n", "no line names the columns", "--columns lift,intake,exhaust"],
    ["a letter wrong", "lift,intake,exhuast\n0.1,43.0,34.1\n", "`exhuast` is not a column", "did you mean exhaust?"],
    ["a side that is not said", "lift,flow\n0.1,43\n", "does not say which side", "--side intake"],
    ["the other side", "lift,exhaust\n0.1,43\n", "--side intake is asked for", undefined, { side: "intake" }],
    ["two intakes", "lift,intake,in\n0.1,43,43\n", "a second column for `intake`"],
    ["a unit that is none", "lift (mm),intake (mph)\n1,43\n", "`mph` is not a unit of a flow", "cfm"],
    ["percent on a flow bench", "lift,intake (%)\n1,43\n", "`%` is not a unit of a flow", "reads: percent"],
    [
      "units said twice",
      "lift (mm),intake\n1,43\n",
      "the head says mm, --units says in",
      undefined,
      { units: "length=in" },
    ],
    ["a spreadsheet's fault", "lift,intake\n0.1,#DIV/0!\n", "`#DIV/0!` is a fault of the spreadsheet", ":2:5"],
    ["a lift that falls", "lift,intake\n0.1,43\n0.05,20\n0.3,121\n", "lift `0.05` is below `0.1`", "bench.txt:3:1"],
    ["words", "lift,intake\n0.1,43\n0.3,lots\n", "`lots` is not a flow", "bench.txt:3:5"],
  ])("%s", (_, text, what, where = "", options = {}) => {
    const { lines, err } = understand(text, options);
    expect([lines, err]).toEqual([undefined, expect.stringContaining(what)]);
    expect(err).toContain(where);
  });

  test("nobody says the unit", () => {
    const { diagnostics } = parsePasted(
      "bench.txt",
      "lift,intake/cfm\n1,43\n",
      { units: {} },
      { units: {}, reads: "flow" },
    );
    expect(diagnostics[0]?.message).toBe("nobody says in which unit `lift` is");
    expect(diagnostics[0]?.hint).toContain("--units length=mm");
  });
});

/** Takes a table into the finished stage of a fresh starter, and shows what would be written. */
async function dry(table: string | Uint8Array, ...options: string[]) {
  put("mine.yaml", STARTER);
  put("bench.txt", table);
  const args = [
    "take",
    "bench.txt",
    "--into",
    "mine.yaml",
    "--stage",
    "Finished",
    "--replace",
    "--dry-run",
    ...options,
  ];
  const ran = await headsheet(args);
  expect(read("mine.yaml")).toBe(STARTER);
  return ran;
}

test("--dry-run prints the lines that would be written, and writes nothing", async () => {
  const { code, out, err } = await dry("lift\tintake\texhaust\r0.100\t43.0\t34.1\r0.300\t121.4?\t-\t# smudged\r");
  expect(out).toBe(
    "    flow: |\n      lift   intake  exhaust\n      0.100   43.0      34.1\n      0.300  121.4?      -  # smudged\n",
  );
  expect([code, err]).toEqual([0, expect.stringContaining("2 rows, 4 readings, 1 doubtful, 1 not taken")]);
});

describe("what is no table, or no flow that can be, is refused in words", () => {
  test.each<[string, string | Uint8Array, string, string?]>([
    ["a PDF", "%PDF-1.7 …", "`bench.txt` is a PDF", "copy its cells"],
    ["a workbook", Buffer.from("504b03040000", "hex"), "is a workbook", "save the table as CSV"],
    ["something else", Buffer.from("00010203aa", "hex"), "is no text"],
    [
      "more than the curtain can pass",
      "lift,intake\n0.1,43\n0.3,1214\n",
      "of all that the curtain could ever pass",
      "bench.txt:3:5",
    ],
  ])("%s", async (_, text, what, where = "") => {
    const { code, out, err } = await dry(text);
    expect([code, out, err]).toEqual([1, "", expect.stringContaining(what)]);
    expect(err).toContain(where);
  });
});

test.each([
  [["--side", "inatke"], "did you mean intake?"],
  [["--separator", "semicolumn"], "did you mean semicolon?"],
  [["--decimal", "coma"], "did you mean comma?"],
  [["--columns", "lift,intkae"], "did you mean intake?"],
  [["--units", "flow=mph"], "is not a unit of a flow"],
  [["--mount", "0"], "whole number"],
  [["--replcae"], "Did you mean --replace?"],
])("%j is wrong use", async (options, near) => {
  const { code, err } = await dry("lift intake\n0.1 43", ...options);
  expect(code).toBe(2);
  expect(err).toContain(near);
});

describe("into a stage", () => {
  const PASTED = "lift\tintake\texhaust\n0.100\t43.1\t34.2\n0.300\t121.5\t85.9\n";
  const take = (job: string, ...options: string[]) => {
    put("job.yaml", job);
    return headsheet(["take", "-", "--into", "job.yaml", ...options], PASTED);
  };
  /** The text of a job with the table in it, or why it cannot go there. */
  function edited(job: string, target: Partial<Target>): string {
    const { located, tables } = readJob("job.yaml", job);
    const table = rows(0).trimEnd().split("\n");
    const whole = { stage: "Finished", newStage: false, replace: false, ...target };
    const done = editStage({ text: job, located: located!, tables }, whole, table, ["intake", "exhaust"]);
    if ("fault" in done) return render([done.fault], new Map([["job.yaml", job]]));
    const { start, end, text } = done.edit;
    return job.slice(0, start) + text + job.slice(end);
  }
  const BARE = STARTER.slice(0, STARTER.indexOf("  - name: Finished"));
  const WORK = STARTER.slice(STARTER.indexOf("\nwork:"));
  const finished = (lines: string) => `${BARE}${lines}${WORK}`;
  const rows = (indent: number) =>
    ["lift   intake  exhaust", "0.100    43.1     34.2", "0.300   121.5     85.9"]
      .map((line) => `${" ".repeat(indent)}${line}\n`)
      .join("");

  test.each<[string, string, string, Partial<Target>?]>([
    [
      "with other keys and a comment behind it",
      "  - name: Finished\n    by: R. C.   # me\n  # next\n",
      `  - name: Finished\n    by: R. C.   # me\n    flow: |\n${rows(6)}  # next\n`,
    ],
    [
      "with an empty `flow`",
      "  - name: Finished\n    flow:   # to come\n    by: R. C.\n",
      `  - name: Finished\n    flow: |   # to come\n${rows(6)}    by: R. C.\n`,
    ],
    [
      "with a head and no readings",
      "  - name: Finished\n    flow: |   # now\n        lift intake\n    by: R. C.\n",
      `  - name: Finished\n    flow: |   # now\n${rows(8)}    by: R. C.\n`,
    ],
    [
      "with an empty block",
      "  - name: Finished\n    flow: |\n    by: R. C.\n",
      `  - name: Finished\n    flow: |\n${rows(6)}    by: R. C.\n`,
    ],
    [
      "with readings, replaced",
      "  - name: Finished\n    flow: |-   # as typed\n     lift intake\n     0.1 44\n     0.2 85\n\n    by: R. C.\n",
      `  - name: Finished\n    flow: |-   # as typed\n${rows(5)}\n    by: R. C.\n`,
      { replace: true },
    ],
    [
      "with readings in quotes, replaced",
      '  - name: Finished\n    flow: "lift intake\\n0.1 44\\n0.2 85" # odd\n    by: R. C.\n',
      `  - name: Finished\n    flow: | # odd\n${rows(6)}    by: R. C.\n`,
      { replace: true },
    ],
    [
      "as its first run",
      "  - name: Finished\n    intake: { throat: 1.430 }\n",
      `  - name: Finished\n    intake: { throat: 1.430 }\n    runs:\n      - cylinder: 2\n        set: with pipe\n        flow: |\n${rows(10)}`,
      { run: { cylinder: "2", set: "with pipe" } },
    ],
    [
      "as one more run",
      "  - name: Finished\n    runs:\n    - cylinder: 1\n      flow: |\n        lift intake\n        0.1 44\n        0.2 85\n    by: R. C.\n",
      `  - name: Finished\n    runs:\n    - cylinder: 1\n      flow: |\n        lift intake\n        0.1 44\n        0.2 85\n    - cylinder: 1\n      mount: "2"\n      flow: |\n${rows(8)}    by: R. C.\n`.replace(
        '"2"',
        "2",
      ),
      { run: { cylinder: "1", mount: "2" } },
    ],
    [
      "in place of one of its runs",
      "  - name: Finished\n    runs:\n      - flow: |\n          lift exhaust\n          0.1 30\n          0.2 60\n      - mount: 2\n        flow: |\n          lift intake\n          0.1 44\n          0.2 85\n",
      `  - name: Finished\n    runs:\n      - flow: |\n          lift exhaust\n          0.1 30\n          0.2 60\n      - mount: 2\n        flow: |\n${rows(10)}`,
      { replace: true, run: { mount: "2" } },
    ],
  ])("%s", (_, before, after, target = {}) => {
    const job = edited(finished(before), target);
    expect(job).toBe(finished(after));
    expect(render(readJob("job.yaml", job).diagnostics, new Map([["job.yaml", job]]))).not.toContain("error");
  });

  test("the intake from one file and the exhaust from another are two runs", async () => {
    put("job.yaml", finished("  - name: Finished\n"));
    const into = ["--into", "job.yaml", "--stage", "Finished", "--cylinder", "1"];
    expect((await headsheet(["take", "-", ...into, "--side", "intake"], "lift flow\n0.1 43\n0.3 121")).code).toBe(0);
    expect((await headsheet(["take", "-", ...into, "--side", "exhaust"], "lift flow\n0.1 34\n0.3 86")).code).toBe(0);
    const again = await headsheet(["take", "-", ...into, "--side", "exhaust"], "lift flow\n0.1 34\n0.3 86");
    expect(again.err).toContain("the run --cylinder 1 of stage `Finished` has readings already");
    expect(read("job.yaml").match(/cylinder: 1/g)).toHaveLength(2);
  });

  test.each<[string, string]>([
    ["at the end of the stages", `${BARE}${WORK}`],
    ["of a job that has none", BARE.slice(0, BARE.indexOf("stages:"))],
    [
      "of a job with an empty `stages`",
      `${BARE.slice(0, BARE.indexOf("stages:"))}stages:   # none yet\nnot_done: [ x ]\n`,
    ],
    ["of a file without a last line end", BARE.trimEnd()],
  ])("a new stage is made %s", async (_, job) => {
    const { code, err } = await take(job, "--stage", "After: the work", "--new-stage");
    expect([code, err]).toEqual([0, expect.not.stringContaining("error")]);
    expect(read("job.yaml")).toContain(`  - name: "After: the work"\n    flow: |\n${rows(6).trimEnd()}`);
    expect((await headsheet(["check", "job.yaml"])).code).toBe(0);
  });

  test.each<[string, string, string, Partial<Target>?]>([
    ["readings that are there", STARTER, "has readings already", {}],
    ["a stage that is not there", STARTER, "did you mean `Finished`?", { stage: "Finishd" }],
    ["a new stage that is there", STARTER, "there is a stage `Finished` already", { newStage: true }],
    ["a stage in brackets", finished("  - { name: Finished }\n"), "is written in brackets", {}],
    [
      "runs, none said",
      finished("  - name: Finished\n    runs:\n      - { cylinder: 2, mount: 2 }\n"),
      "say which: --cylinder 2 --mount 2",
      {},
    ],
    ["a run of a stage with `flow`", STARTER, "holds its readings under `flow`", { run: { cylinder: "2" } }],
    [
      "a run in a file",
      finished("  - name: Finished\n    runs:\n      - { file: x.csv }\n"),
      "stand in the file `x.csv`",
      { replace: true, run: { cylinder: "1" } },
    ],
    [
      "a run in brackets",
      finished('  - name: Finished\n    runs:\n      - { mount: 2, flow: "lift intake\\n0.1 44\\n0.2 85" }\n'),
      "this run is written in brackets",
      { replace: true, run: { mount: "2" } },
    ],
  ])("refused: %s", (_, job, what, target = {}) => expect(edited(job, target)).toContain(what));

  test("nothing is written where readings are, or into a job that cannot be read", async () => {
    expect(await take(STARTER, "--stage", "Finished")).toMatchObject({ code: 1, out: "" });
    expect(read("job.yaml")).toBe(STARTER);
    const broken = `${STARTER}  oops: [`;
    expect((await take(broken, "--stage", "Finished")).err).toContain("error[source/");
    expect(read("job.yaml")).toBe(broken);
  });

  test("line ends and byte order mark of the job stay; so do its own faults, which are none of ours", async () => {
    const windows = `\ufeff${STARTER.replace("stem: 0.315", "stme: 0.315").replaceAll("\n", "\r\n")}`;
    const { code, err } = await take(windows, "--stage", "Finished", "--replace");
    expect([code, err]).toEqual([0, expect.stringContaining("has faults elsewhere, as before")]);
    const after = read("job.yaml");
    expect(after.startsWith("\ufeff#")).toBe(true);
    expect(after.replaceAll("\r\n", "")).not.toMatch(/[\r\n]/);
    expect(after).toContain("      0.300   121.5     85.9\r\n\r\nwork:");
  });

  test("a missing --stage, --into, job or file is reported", async () => {
    expect((await headsheet(["take", "-", "--into", "job.yaml"], PASTED)).err).toContain(
      "--stage is missing, such as --stage Finished",
    );
    expect((await headsheet(["take", "-", "--stage", "x"], PASTED)).err).toContain("--into is missing");
    expect((await headsheet(["take", "-", "--into", "none.yaml", "--stage", "x"], PASTED)).err).toContain(
      "there is no file `none.yaml`",
    );
    expect((await headsheet(["take", "none.csv", "--into", "job.yaml", "--stage", "x"], PASTED)).err).toContain(
      "there is no file of readings `none.csv`",
    );
  });

  test("a job behind a link is written where it stands, litter goes, and a job that somebody else changed is left alone", async () => {
    put("real.yaml", STARTER);
    put(".headsheet-elsewhere-1-0.tmp", "half");
    symlinkSync(join(folder, "real.yaml"), join(folder, "link.yaml"));
    const args = ["take", "-", "--into", "link.yaml", "--stage", "Finished", "--replace"];
    let reads = 0;
    const changing: Io = {
      ...disk,
      readFile: (path, largest) => {
        const found = disk.readFile(path, largest);
        if (path.endsWith("real.yaml") && reads++ === 0) put("real.yaml", `${STARTER}# mine\n`);
        return found;
      },
    };
    const beaten = await headsheet(args, PASTED, changing);
    expect([beaten.code, beaten.err]).toEqual([2, expect.stringContaining("was changed by somebody else")]);
    expect(read("real.yaml")).toBe(`${STARTER}# mine\n`);
    expect((await headsheet(args, PASTED)).code).toBe(0);
    expect(lstatSync(join(folder, "link.yaml")).isSymbolicLink()).toBe(true);
    expect(read("real.yaml")).toContain("0.300   121.5     85.9");
    expect(readdirSync(folder).filter((name) => name.endsWith(`${process.pid}-0.tmp`))).toEqual([]);
  });

  test("a read-only job is refused, and stays as it is", async () => {
    put("job.yaml", STARTER);
    chmodSync(join(folder, "job.yaml"), 0o444);
    const args = ["take", "-", "--into", "job.yaml", "--stage", "Finished", "--replace"];
    expect(await headsheet(args, PASTED)).toMatchObject({
      code: 2,
      out: "",
      err: expect.stringContaining("error: `job.yaml`: the file is read-only: nothing was saved"),
    });
    expect(read("job.yaml")).toBe(STARTER);
    chmodSync(join(folder, "job.yaml"), 0o600);
    expect((await headsheet(args, PASTED)).code).toBe(0);
    expect(statSync(join(folder, "job.yaml")).mode & 0o777).toBe(0o600);
  });

  test("what another program saves in the same moment is kept beside the job, which is said", async () => {
    put("job.yaml", STARTER);
    around("renameSync", "before", () => put("job.yaml", `${STARTER}# theirs\n`), "job.yaml");
    const { code, err } = await headsheet(
      ["take", "-", "--into", "job.yaml", "--stage", "Finished", "--replace"],
      PASTED,
    );
    const [, kept = ""] = /what it saved is kept beside it as `(.*)`/.exec(err) ?? [];
    expect([code, kept]).toEqual([0, expect.stringMatching(/^job\.yaml\.other-version-/)]);
    expect(read(kept)).toBe(`${STARTER}# theirs\n`);
    expect(read("job.yaml")).toContain("0.300   121.5     85.9");
  });
});

test("comment lines inside a table stay where they stood when its readings are replaced", async () => {
  const noted = STARTER.replace(/(flow: \|\n)( +)(lift.*\n)/, "$1$2# bench warmed up\n$2$3$2# second pass\n");
  expect(noted).not.toBe(STARTER);
  put("noted.yaml", noted);
  const table = "lift intake exhaust\n0.1 43.0 34.1\n0.3 121.4 85.8\n";
  const { code, err } = await headsheet(
    ["take", "-", "--into", "noted.yaml", "--stage", "As received", "--replace"],
    table,
  );
  expect([code, err]).toEqual([0, expect.any(String)]);
  expect(read("noted.yaml")).toMatch(
    /flow: \|\n( +)# bench warmed up\n\1lift +intake +exhaust\n\1# second pass\n\1 *0\.1/,
  );
});

test("every refusal says in which file", async () => {
  put("mine.yaml", STARTER);
  put("picture.csv", new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 3]));
  for (const readings of ["none.csv", "picture.csv"]) {
    const { code, err } = await headsheet(["take", readings, "--into", "mine.yaml", "--stage", "Finished"]);
    expect([code, err]).toEqual([1, expect.stringContaining(`--> ${readings}`)]);
  }
});

describe("a table with columns before and after", () => {
  const STAGES = ["--stage", "As received", "--stage", "Finished", "--replace"];
  const rows = "0.1;42.0;33.2;44.1;35.0\n0.3;120.2;84.9;126.0;88.1\n";
  const takeBoth = async (table: string, job: string, ...options: string[]) => {
    put("both.yaml", job);
    put("bench.txt", table);
    const ran = await headsheet(["take", "bench.txt", "--into", "both.yaml", ...options]);
    const { job: made } = readJob("both.yaml", read("both.yaml"));
    return {
      ...ran,
      flows: made?.stages?.map(({ name, flow }) => [
        name,
        String(flow).replace(/\n +/g, "\n").replace(/ +/g, " ").trim(),
      ]),
    };
  };
  const BEFORE = "lift intake exhaust\n0.1 42.0 33.2\n0.3 120.2 84.9";
  const AFTER = "lift intake exhaust\n0.1 44.1 35.0\n0.3 126.0 88.1";

  test.each([
    ["in each name", "lift (in);intake before (cfm);exhaust before (cfm);intake after (cfm);exhaust after (cfm)\n"],
    ["in a line above", ";Before;;After;\nlift (in);intake (cfm);exhaust (cfm);intake (cfm);exhaust (cfm)\n"],
  ])("goes into two stages, with the words %s", async (_, head) => {
    const { code, out, err, flows } = await takeBoth(head + rows, STARTER, ...STAGES);
    expect([code, out, err]).toEqual([0, "both.yaml\n", expect.stringContaining("into `Finished`")]);
    expect(flows).toEqual([
      ["As received", BEFORE],
      ["Finished", AFTER],
    ]);
  });
  test("both stages may be new, or one of them", async () => {
    const head = "lift;intake before;exhaust before;intake after;exhaust after\n";
    const { code, flows } = await takeBoth(head + rows, STARTER, "--stage", "One", "--stage", "Two", "--new-stage");
    expect(code).toBe(0);
    expect(flows?.slice(2)).toEqual([
      ["One", BEFORE],
      ["Two", AFTER],
    ]);
  });
  test.each([
    [["--stage", "Finished", "--replace"], "lift;intake before;intake after\n0.1;42;43\n", "name both stages"],
    [STAGES, "lift;intake;exhaust\n0.1;42;43\n", "no column says `before`"],
  ])("%j: wants the other as well, and nothing is written", async (options, table, words) => {
    const { code, err } = await takeBoth(table, STARTER, ...options);
    expect([code, err, read("both.yaml")]).toEqual([1, expect.stringContaining(words), STARTER]);
  });
  test("one stage twice, or three, are wrong use", async () => {
    for (const names of [
      ["A", "A"],
      ["A", "B", "C"],
    ])
      expect((await takeBoth(rows, STARTER, ...names.flatMap((name) => ["--stage", name]))).code).toBe(2);
  });
});

test.each(["Max", "Total", "average", "Gain", "Median"])("a row %s is named and left out", (name) => {
  const { lines, said } = understand(`lift,intake,exhaust\n0.1,43.0,34.1\n0.3,121.4,85.8\n${name},121.4,85.8\n`);
  expect(lines).toEqual(TABLE);
  expect(said).toContain(`left out: row \`${name}\``);
});

describe("a table of the valves", () => {
  const TYPED =
    "    valve_train: |\n      valve  height/in  shim/in  vacuum\n      1I     1.560      0.030    held\n      1E     1.548      -        lost\n";
  const job = () => {
    put("valves.yaml", STARTER);
    return headsheet(["take", "valves.csv", "--into", "valves.yaml", "--stage", "Finished"]);
  };

  test.each([
    ["commas", "Valve,Installed height (in),Shim/in,Vacuum\n1 in,1.560,0.030,Held\n1 ex,1.548,,lost\n"],
    [
      "semicolons and decimal commas",
      "Valves;Height (in);Shims (in);Vac.\r\n1 intake;1,560;0,030;held\r\n1E;1,548;n/a;lost\r\n",
    ],
    [
      "tabs, with a title above and a column of notes",
      "Head 12\nvalve\theight/in\tshim/in\twho\tvacuum\n1I\t1.560\t0.030\tRC\theld\n1E\t1.548\t-\tRC\tlost\n",
    ],
  ])("between %s becomes the stage's table, all else as it was", async (_, table) => {
    put("valves.csv", table);
    const { code, err } = await job();
    expect([code, err]).toEqual([0, expect.stringContaining("2 valves")]);
    const after = read("valves.yaml");
    const added = after.split("\n").filter((line) => !STARTER.split("\n").includes(line));
    const plain = (lines: readonly string[]) => lines.map((line) => line.trim().toLowerCase().replace(/ +/g, " "));
    expect(plain(added)).toEqual(plain(TYPED.trimEnd().split("\n")));
    expect(
      after
        .split("\n")
        .filter((line) => !added.includes(line))
        .join("\n"),
    ).toBe(STARTER);
    expect((await headsheet(["figures", "valves.yaml", "--json"])).out).toContain('"valve": "1E"');
  });

  test("a second one needs --replace; a wrong cell is shown where it stands in the spreadsheet", async () => {
    put("valves.csv", "valve,height/in\n1I,1.560\n");
    expect((await job()).code).toBe(0);
    const again = ["take", "valves.csv", "--into", "valves.yaml", "--stage", "Finished"];
    expect((await headsheet(again)).err).toContain("--replace puts this one in its place");
    put("valves.csv", "valve,height/in\n1I,1.570\n2X,1.560\n");
    const { code, err } = await headsheet([...again, "--replace"]);
    expect([code, err]).toEqual([1, expect.stringContaining("--> valves.csv:3:1")]);
    put("valves.csv", "valve,height/in\n1I,1.570\n");
    expect((await headsheet([...again, "--replace"])).code).toBe(0);
    expect(read("valves.yaml")).toMatch(/valve {2}height\/in\n +1I +1\.570\n/);
  });
});
