import { expect, test } from "vitest";
import { inProcess, scratch } from "../cli/run.ts";
import { shopWorld } from "../contract/made.ts";
import { SOUND } from "../whole/slips/files.ts";

const JOB = "/shop/2026-014.yaml";
const out = scratch();

test.each([
  ["a sheet that is none", "sheet: [ handover, engine ]", "sheet: [ handovr, enigne ]", 1],
  ["a letter without a glyph", "remarks: Run it", "remarks: 弁 Run it", 1],
  ["a slip of the job", "stroke: 2.953", "stroke: wide", 1],
  ["nothing", "received: 2026-02-20", "draft: true", 0],
] as const)("check and make agree on %s, in the same words", async (_, from, to, code) => {
  const io = shopWorld({ ...SOUND, [JOB]: (SOUND[JOB] as string).replace(from, to) });
  const checked = await inProcess(["check", JOB], "/shop", io);
  const made = await inProcess(["make", JOB, "--out", out], "/shop", io);
  expect([checked.code, made.code]).toEqual([code, code]);
  const words = (text: string) =>
    text.split("\n").filter((line) => /^(error|warning)\[|= (hint|note):/.test(line.trim()));
  expect(words(checked.err)).toEqual(words(made.err));
  if (code === 1) expect(words(checked.err).length).toBeGreaterThan(0);
});
