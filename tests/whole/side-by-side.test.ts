import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { renderSheet } from "../../src/pipeline/render-sheet.ts";
import { overlay } from "../embed/overlay.ts";
import { readBack } from "../pdf/read-back.ts";
import { demo, kit } from "./demo.ts";

const JOB = demo("alder-lane/2026-054.yaml");
const A = demo("alder-lane/2026-052.yaml");
const B = demo("alder-lane/2026-053.yaml");
const textOf = (path: string) => readFileSync(path, "utf8");

type Change = readonly [path: string, from: string | RegExp, to: string];

/** The words of the sheet, or the errors, with some words of the files changed. */
async function made(changes: readonly Change[] = [], job = JOB, template = "side-by-side") {
  const texts: Record<string, string> = {};
  for (const [path, from, to] of changes) {
    const before = texts[path] ?? textOf(path);
    texts[path] = before.replace(from, to);
    if (texts[path] === before) throw new Error(`${path} has no ${from}`);
  }
  const { drawable, diagnostics } = evaluateJob(job, {}, overlay(texts));
  if (!drawable) return { words: "", errors: diagnostics.map(({ message }) => message) };
  const { pdf, diagnostics: drawn } = await renderSheet(drawable, template, {}, kit);
  const pages = pdf ? await readBack(pdf) : [];
  return {
    words: pages
      .flatMap(({ texts: all }) => all.map(({ text }) => text))
      .join(" ")
      .replaceAll(/[\u00a0\u202f]/g, " "),
    errors: drawn.filter(({ severity }) => severity === "error").map(({ message }) => message),
  };
}

describe("two heads of one customer", () => {
  test("who is higher where, in words, as a bar and as a table; what cannot be told; the opinion apart", async () => {
    const { words, errors } = await made();
    expect(errors).toEqual([]);
    for (const said of [
      "Intake: head A flows clearly more up to 0.300 in of lift, head B clearly more from 0.400 in.",
      "Exhaust: no difference found.",
      "A clearly higher",
      "B clearly higher",
      "curves cross at 0.34",
      "2026-052, stamped 4471-F",
      "Torque and power: a dynamometer decides.",
      "Which head fills better cannot be told from what was measured.",
      "Opinion of Ruth Calloway",
    ])
      expect(words).toContain(said);
    expect(words).not.toMatch(/\b(winner|wins|best|better choice|ranking|score)\b/i);
  });

  test("of another customer only by consent, and then without ticket, stamp and date", async () => {
    const other: Change = [B, "P. Lindqvist", "Somebody Else"];
    expect((await made([other])).errors).toEqual([expect.stringContaining("may not be drawn by other jobs")]);
    const consented: Change = [B, "sheet: attachment", "sheet: attachment\nmay_compare: yes"];
    const { words, errors } = await made([other, consented]);
    expect(errors).toEqual([]);
    for (const secret of ["Somebody Else", "2026-053", "4471-R", "6 October"]) expect(words).not.toContain(secret);
    expect(words).toContain("2026-052, stamped 4471-F");
  });

  test("under other conditions the numbers stay and every verdict goes", async () => {
    const { words } = await made([[B, "bench: {", "bench: { test_pressure: 10, "]]);
    expect(words).toContain("measured unlike");
    expect(words).not.toMatch(/clearly|[AB] higher/);
    // Both peaks, at the pressure of the sheet.
    for (const flow of ["177.9 at 0.450", "318.3 at 0.550"]) expect(words).toContain(flow);
  });

  test.each(["A", "B"])("what head %s holds back takes its row, outline and gas speed with it", async (letter) => {
    const path = letter === "A" ? A : B;
    const { words, errors } = await made([
      [path, "sheet: attachment", "sheet: attachment\nreport: { hold_back: [ pinch, port volume ] }"],
    ]);
    expect(errors).toEqual([]);
    expect(words).not.toContain(letter === "A" ? "1.545" : "1.934");
    expect(words).toContain(letter === "A" ? "cc – 136.0 – 70.0" : "cc 114.0 – 66.0 –");
    expect(words).not.toContain("Intake pinch, true size");
    expect(words).not.toContain("Gas speed at the pinch");
    expect(words).toContain("Air demand of the intake");
  });
});

describe("four heads", () => {
  test("each by its letter, one page more; those of another customer by label alone", async () => {
    const { words, errors } = await made([], demo("alder-lane/2026-055.yaml"));
    expect(errors).toEqual([]);
    for (const said of ["Head A", "Head D", "head C flows clearly more than the others", "C clearly higher"])
      expect(words).toContain(said);
    for (const secret of ["Ashgrove", "2026-014", "4471-B", "12 March", "23 February"])
      expect(words).not.toContain(secret);
  });
});

describe("refused", () => {
  test("another sheet, which would be about one head", async () => {
    for (const template of ["handover", "engine", "attachment", "set-up"])
      expect((await made([], JOB, template)).errors).toEqual([expect.stringContaining("is about one head")]);
  });
  test("stages, other heads or a product beside it; one head alone; a head twice", async () => {
    const faults = async (from: string | RegExp, to: string) => (await made([[JOB, from, to]])).errors;
    const sheet = "sheet: side-by-side";
    expect(await faults(sheet, `${sheet}\nstages: [ { name: Finished } ]`)).toContain(
      "both `heads_of` and `stages` stand here",
    );
    expect(await faults(sheet, `${sheet}\ncompare: [ { job: 2026-014.yaml } ]`)).toContain(
      "both `heads_of` and `compare` stand here",
    );
    expect(await faults(/ {2}- .*2026-053.*\n/, "")).not.toEqual([]);
    expect(await faults("2026-053.yaml", "2026-054.yaml")).toContain("a job cannot name itself");
    expect(await faults("label: large port", "label: fast-road")).toContain("two heads are called `fast-road`");
  });
});
