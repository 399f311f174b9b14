import type { Diagnostic } from "../../diagnostics/diagnostic.ts";

/** Builds an error at a span of the readings. */
export type ErrorBuilder = (
  code: `take/${string}`,
  message: string,
  at: { readonly start: number; readonly end: number },
  hint: string,
) => Diagnostic;

export const createErrorBuilder =
  (file: string): ErrorBuilder =>
  (code, message, { start, end }, hint) => ({ severity: "error", code, message, at: { file, start, end }, hint });
