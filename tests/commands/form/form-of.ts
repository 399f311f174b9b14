import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { expect } from "vitest";
import { renderForm } from "../../../src/commands/form.ts";
import type { FormChoices } from "../../../src/model/form/build-form.ts";
import { evaluateJob } from "../../../src/pipeline/evaluate.ts";
import { type ReadPage, readBack } from "../../pdf/read-back.ts";
import { kit } from "../../whole/demo.ts";

/** Evaluates a job; throws when it has errors. */
export const drawn = (path: string) => {
  const { drawable, diagnostics } = evaluateJob(path, {}, kit.io);
  if (!drawable) throw new Error(JSON.stringify(diagnostics));
  return drawable;
};

/** The form of a job and its text. */
export const formOf = async (path: string, asked: FormChoices = {}, paper: "A4" | "Letter" = "A4") => {
  const { pdf, diagnostics } = await renderForm(drawn(path), asked, { paper }, kit);
  expect(diagnostics).toEqual([]);
  return { pdf: pdf!, pages: await readBack(pdf!) };
};

/** All printed texts, one a line. */
export const words = (pages: readonly ReadPage[]) =>
  pages
    .flatMap(({ texts }) => texts.map(({ text }) => text.trim()))
    .join("\n")
    .replaceAll(/[\u00a0\u202f]/g, " ");
/** Writes a job into a folder. */
export const put = (folder: string, name: string, text: string) => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};
/** A job with nothing but a head, and more. */
export const bare = (folder: string, more: string) =>
  put(
    folder,
    "bare.yaml",
    `job: b-1\nissued: 2026-03-01\ncustomer: { name: A. Person }\nhead: { name: Bare }\nbench: { test_pressure: 28 inH2O }\n${more}`,
  );
