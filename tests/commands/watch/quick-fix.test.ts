import { describe, expect, test } from "vitest";
import { quickFix } from "../../../src/commands/watch/quick-fix.ts";
import { readJob } from "../../../src/job/read-job.ts";
import { FULL_JOB } from "../../job/full-job.ts";

describe("what a hint proposes", () => {
  test.each<[string, string, string]>([
    ["did you mean `issued`?", "isued", "issued"],
    ["did you mean 2026-03-18?", "2026-3-18", "2026-03-18"],
    ["did you mean 34 mm? Accepted units: mm, cm, m, in, thou", "34 nm", "34 mm"],
    ["did you mean intake?", "intkae/cfm", "intake/cfm"],
    ["did you mean lift?", "lft(mm)", "lift(mm)"],
    ["did you mean 130.5?", "13O.5?", "130.5?"],
    ["did you mean 130.5?", "~13O.5", "~130.5"],
    ["did you mean `Finished`?", '"Finishd"', '"Finished"'],
    ["did you mean 1 1/2? The lower number is 2, 4, 8 or 16", "1 1/3", "1 1/2"],
  ])("%s over %s", (hint, before, after) => expect(quickFix(hint, before)).toEqual({ before, after }));

  test.each<[string | undefined, string]>([
    [undefined, "x"],
    ["write 34 mm or 34 in", "34"],
    ["columns are lift, intake", "x"],
    ["did you mean `a`?", "a"],
    ["did you mean `a`?", ""],
    ["did you mean `a`?", "b\nc"],
  ])("nothing: %s over %s", (hint, before) => expect(quickFix(hint, before)).toBeUndefined());
});

describe("mistakes in a job, each put right by its fix", () => {
  test.each<[string, string]>([
    ["issued: ", "isued: "],
    ["received: 2026-02-20", "received: 2026-2-20"],
    ["flow: cfm", "flow: cfn"],
    ["embed: readings", "embed: reading"],
    ["repeats: As received", "repeats: As recieved"],
    ["at     width  height", "at     width  heigth"],
    ["throat: 1.525", "throat: 1.525 im"],
    ["0.100   40.3     33.2", "0.100   4O.3     33.2"],
    ["remount: 1.4 %", "remout: 1.4 %"],
  ])("%s typed %s", (right, wrong) => {
    expect(FULL_JOB).toContain(right);
    const text = FULL_JOB.replace(right, wrong);
    const fixes = readJob("a.yaml", text).diagnostics.flatMap(({ at, hint }) => {
      const fix = at && quickFix(hint, text.slice(at.start, at.end));
      return fix ? [text.slice(0, at.start) + fix.after + text.slice(at.end)] : [];
    });
    expect(fixes).toHaveLength(1);
    expect(readJob("a.yaml", fixes[0]!).diagnostics).toEqual([]);
  });
});
