import type { PdfFile } from "./pdf-file.ts";

/** A machine rule: its name in the list of `tests/references/pdf-conformance.json`, and what a file does against it. */
export type Rule = {
  readonly standard: "PDF/UA-1" | "PDF/A-2b" | "PDF/A-3b" | "PDF/A-3a";
  readonly rule: string;
  /** One line a fault; none when the file keeps the rule. */
  readonly faults: (file: PdfFile) => readonly string[];
};

/** A fault when it is so. */
export const when = (isSo: boolean, fault: string): readonly string[] => (isSo ? [fault] : []);
