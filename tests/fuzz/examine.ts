import type { PDFiumLibrary } from "@hyzyla/pdfium";
import { render } from "../../src/diagnostics/render.ts";
import { makeSheet, templatesOf, workOut } from "../../src/make-sheet.ts";
import { check } from "../conformance/check.ts";
import { shopWorld } from "../contract/made.ts";
import { readBack } from "../pdf/read-back.ts";
import { kit } from "../whole/demo.ts";
import type { FuzzCase } from "./cases.ts";

/** What came of a case; nothing among `faults` when all is well. */
export type Examined = {
  readonly outcome: "made" | "refused";
  readonly sheets: number;
  readonly milliseconds: number;
  readonly faults: readonly string[];
};

/** No case takes longer [ms], nor more memory [bytes]. */
const LONGEST = 10_000;
const LARGEST = 500e6;

const OURS = ["NaN", "Infinity", "undefined", "[object"];

/** One world from its files to its finished sheets, opened by two readers who know nothing of us. */
export async function examine(one: FuzzCase, pdfium: PDFiumLibrary, rules: boolean): Promise<Examined> {
  const start = performance.now();
  const before = process.memoryUsage().rss;
  const typed = Object.values(one.files)
    .filter((content) => typeof content === "string" || content.length < 1e5)
    .map((content) => Buffer.from(content).toString("utf8"))
    .join("\n");
  const said = (where: string, text: string) =>
    OURS.filter((word) => text.includes(word) && !typed.includes(word)).map(
      (word) => `${word} in ${where}: ${around(text, word)}`,
    );
  const faults: string[] = [];
  let outcome: Examined["outcome"] = "refused";
  let sheets = 0;
  try {
    const io = shopWorld(one.files);
    const asked = one.templates ? { templates: one.templates } : {};
    const { drawable, diagnostics, sources } = workOut(one.job, asked, io);
    faults.push(...said("messages", render(diagnostics, sources)));
    if (!drawable && !diagnostics.some(({ severity }) => severity === "error")) faults.push("refused without a reason");
    if (drawable) {
      faults.push(...said("figures", JSON.stringify(drawable.figures)));
      for (const template of templatesOf(drawable.project, asked)) {
        const made = await makeSheet(drawable, template, asked, { ...kit, io });
        faults.push(...said("messages", render(made.diagnostics, new Map([...sources, ...made.sources]))));
        if (!made.pdf && !made.diagnostics.some(({ severity }) => severity === "error"))
          faults.push("no sheet, and no reason");
        if (!made.pdf) continue;
        outcome = "made";
        sheets++;
        faults.push(...(await opened(made.pdf, pdfium, said)), ...(rules ? check(Buffer.from(made.pdf)) : []));
      }
    }
  } catch (error) {
    faults.push(error instanceof Error ? `threw ${error.stack?.split("\n").slice(0, 4).join(" ")}` : String(error));
  }
  const milliseconds = performance.now() - start;
  if (milliseconds > LONGEST) faults.push(`took ${Math.round(milliseconds)} ms`);
  if (process.memoryUsage().rss - before > LARGEST) faults.push(`took ${process.memoryUsage().rss - before} bytes`);
  return { outcome, sheets, milliseconds, faults };
}

async function opened(
  pdf: Uint8Array,
  pdfium: PDFiumLibrary,
  said: (where: string, text: string) => readonly string[],
): Promise<readonly string[]> {
  const pages = await readBack(pdf);
  const document = await pdfium.loadDocument(pdf);
  const count = document.getPageCount();
  document.destroy();
  return [
    ...pages.flatMap(({ texts }, i) => said(`page ${i + 1}`, texts.map(({ text }) => text).join(" "))),
    ...(count === pages.length && count > 0 ? [] : [`${count} pages in one reader, ${pages.length} in the other`]),
  ];
}

const around = (text: string, word: string) => {
  const at = text.indexOf(word);
  return JSON.stringify(text.slice(Math.max(0, at - 60), at + 40));
};
