import { describe, expect, test } from "vitest";
import type { Diagnostic } from "../../../src/diagnostics/diagnostic.ts";
import { evaluateJob } from "../../../src/pipeline/evaluate.ts";
import { templatesOf } from "../../../src/pipeline/file-name.ts";
import { checkSheet } from "../../../src/pipeline/render-sheet.ts";
import { shopWorld } from "../../contract/made.ts";
import { kit } from "../demo.ts";
import { SOUND } from "./files.ts";
import { KEYS } from "./of-keys.ts";
import { QUANTITIES } from "./of-quantities.ts";
import { READINGS } from "./of-readings.ts";
import { WRITING } from "./of-writing.ts";
import type { Slip } from "./slip.ts";

const INCHES = "/shop/2026-014.yaml";
/** The job that is checked, by the file that is harmed, where that is no job of its own. */
const JOBS: Readonly<Record<string, string>> = {
  "/shop/shop.yaml": INCHES,
  "/shop/bench/1.csv": "/shop/2026-015.yaml",
  "/shop/2026-012.yaml": "/shop/2026-015.yaml",
};

/** What is said of a job whose file holds this text; its sheets are laid out where nothing is said before. */
async function said(file: string, text: string, sheets = true): Promise<readonly Diagnostic[]> {
  const io = shopWorld({ ...SOUND, [file]: text });
  const { drawable, diagnostics } = evaluateJob(JOBS[file] ?? file, {}, io);
  if (!drawable || diagnostics.length > 0 || !sheets) return diagnostics;
  const found: Diagnostic[] = [];
  for (const template of templatesOf(drawable.project, {}))
    found.push(...(await checkSheet(drawable, template, {}, { ...kit, io })).diagnostics);
  return found;
}

function replaced(text: string, from: string, to: string): string {
  expect(text.split(from).length, `the text to replace stands there once: ${from}`).toBe(2);
  return text.replace(from, () => to);
}

/** The text after the cure that the hint prints. */
function cured(text: string, { hint = "", at }: Diagnostic, { file = INCHES, cure }: Slip): string {
  if (cure) {
    const [words, ...edits] = cure;
    expect(hint).toContain(words);
    let done = text;
    for (let k = 0; k < edits.length; k += 2) done = replaced(done, edits[k]!, edits[k + 1]!);
    return done;
  }
  const printed = /did you mean `?([^`?]+?)`?\?/.exec(hint) ?? /write `?(.+?)`?(?:;.*)?$/.exec(hint);
  expect(printed, `the hint prints what to write: ${hint}`).not.toBeNull();
  expect(at?.file).toBe(file);
  return text.slice(0, at!.start) + printed![1] + text.slice(at!.end);
}

test("the jobs are sound before any slip", async () => {
  for (const file of [INCHES, "/shop/2026-015.yaml", "/shop/qh-100.yaml"])
    expect([file, await said(file, SOUND[file] as string)]).toEqual([file, []]);
});

describe("one slip, one message, and its cure as printed makes the job sound", () => {
  const all = [...WRITING, ...KEYS, ...QUANTITIES, ...READINGS];
  test("at least sixty, no two alike", () => {
    expect(new Set(all.map(({ harm, file }) => JSON.stringify([file, harm]))).size).toBe(all.length);
    expect(all.length).toBeGreaterThan(60);
  });

  test.each(all.map((slip) => [slip.name, slip] as const))("%s", async (_, slip) => {
    const { file = INCHES, harm, says, warns = false } = slip;
    const harmed = replaced(SOUND[file] as string, ...harm);
    const early = await said(file, harmed, false);
    const found = early.length > 0 ? early : await said(file, harmed);
    expect(found.map(({ message }) => message.replaceAll(/[\u00a0\u202f]/g, " "))).toEqual([
      expect.stringContaining(says),
    ]);
    expect(found[0]!.severity).toBe(warns ? "warning" : "error");
    expect(await said(file, cured(harmed, found[0]!, slip), early.length === 0)).toEqual([]);
  });
});
