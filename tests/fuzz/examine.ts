import type { PDFiumLibrary } from "@hyzyla/pdfium";
import { hasError } from "../../src/diagnostics/build.ts";
import { render } from "../../src/diagnostics/render.ts";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { templatesOf } from "../../src/pipeline/file-name.ts";
import { checkSheet, renderSheet } from "../../src/pipeline/render-sheet.ts";
import { check } from "../conformance/check.ts";
import { shopWorld } from "../contract/made.ts";
import { readBack, readWords } from "../pdf/read-back.ts";
import { kit } from "../whole/demo.ts";
import type { FuzzCase } from "./cases.ts";

/** The outcome of a case; `faults` is empty when it passes. */
export type Examined = {
  readonly outcome: "made" | "refused";
  readonly sheets: number;
  /** Those that were painted. */
  readonly pdfs: readonly Uint8Array[];
  readonly milliseconds: number;
  readonly faults: readonly string[];
};

/** Limits of one case: processor time [ms], where a clock is given, and memory [bytes]. */
const LONGEST = 10_000;
const LARGEST = 500e6;

const OURS = ["NaN", "Infinity", "undefined", "[object"];

/**
 * How far a case is examined: laid out, every page as data; or painted, and the text of every page extracted by two independent
 * readers; or painted, extracted with its lines, and checked against every conformance rule.
 */
export type Depth = "laid out" | "read" | "ruled";

/** Finds leaked values of the program, such as NaN, in a text. */
type Said = (where: string, text: string) => readonly string[];

/** Runs one case from its files to its finished sheets. */
export async function examine(
  one: FuzzCase,
  pdfium: PDFiumLibrary,
  depth: Depth,
  clock: () => number,
): Promise<Examined> {
  const start = clock();
  const before = process.memoryUsage.rss();
  const typed = (word: string) =>
    Object.values(one.files).some(
      (content) =>
        (typeof content === "string" || content.length < 1e5) && Buffer.from(content).toString("utf8").includes(word),
    );
  const said: Said = (where, text) =>
    OURS.filter((word) => text.includes(word) && !typed(word)).map(
      (word) => `${word} in ${where}: ${around(text, word)}`,
    );
  const faults: string[] = [];
  const pdfs: Uint8Array[] = [];
  let outcome: Examined["outcome"] = "refused";
  let sheets = 0;
  try {
    const io = shopWorld(one.files);
    const asked = one.templates ? { templates: one.templates } : {};
    const { drawable, diagnostics, sources } = evaluateJob(one.job, asked, io);
    faults.push(...said("messages", render(diagnostics, sources)));
    if (!drawable && !hasError(diagnostics)) faults.push("refused without a reason");
    if (drawable) {
      faults.push(...said("figures", JSON.stringify(drawable.figures)));
      for (const template of templatesOf(drawable.project, asked)) {
        const made =
          depth === "laid out"
            ? await checkSheet(drawable, template, asked, { ...kit, io })
            : await renderSheet(drawable, template, asked, { ...kit, io });
        faults.push(...said("messages", render(made.diagnostics, new Map([...sources, ...made.sources]))));
        if (!made.pages && !hasError(made.diagnostics)) faults.push("no sheet, and no reason");
        if (!made.pages) continue;
        outcome = "made";
        sheets++;
        if ("pdf" in made && made.pdf) {
          pdfs.push(made.pdf);
          faults.push(...(await opened(made.pdf, pdfium, said, depth)));
          if (depth === "ruled") faults.push(...check(Buffer.from(made.pdf)));
        } else faults.push(...made.pages.flatMap((page, i) => said(`page ${i + 1}`, JSON.stringify(page))));
      }
    }
  } catch (error) {
    faults.push(error instanceof Error ? `threw ${error.stack?.split("\n").slice(0, 4).join(" ")}` : String(error));
  }
  const milliseconds = clock() - start;
  if (milliseconds > LONGEST) faults.push(`took ${Math.round(milliseconds)} ms`);
  const taken = process.memoryUsage.rss() - before;
  if (taken > LARGEST) faults.push(`took ${taken} bytes`);
  return { outcome, sheets, pdfs, milliseconds, faults };
}

async function opened(pdf: Uint8Array, pdfium: PDFiumLibrary, said: Said, depth: Depth): Promise<readonly string[]> {
  const words =
    depth === "ruled"
      ? (await readBack(pdf)).map(({ texts }) => texts.map(({ text }) => text).join(" "))
      : await readWords(pdf);
  const document = await pdfium.loadDocument(pdf);
  const others = [...document.pages()].map((page) => page.getText());
  document.destroy();
  if (others.length !== words.length || others.length === 0)
    return [`${others.length} pages in one reader, ${words.length} in the other`];
  return words.flatMap((text, i) => [
    ...said(`page ${i + 1}`, text),
    ...(readAlike(text, others[i] as string) ? [] : [`page ${i + 1} reads otherwise in another reader`]),
  ]);
}

/**
 * Readers differ in blanks and in the order of texts, not in letters. PDFium does not count soft hyphens, for which it writes
 * U+FFFE, and cuts off as many characters at the end of a page.
 */
function readAlike(text: string, other: string): boolean {
  const left = lettersOf(text);
  const extra = lettersOf(other).filter((letter) => {
    const at = left.indexOf(letter);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
  return extra.length === 0 && left.length <= (other.match(/\ufffe/g)?.length ?? 0);
}

const lettersOf = (text: string) => [...text.normalize("NFKC").replaceAll(/[\s\p{C}]/gu, "")];

const around = (text: string, word: string) => {
  const at = text.indexOf(word);
  return JSON.stringify(text.slice(Math.max(0, at - 60), at + 40));
};
