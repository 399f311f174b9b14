import type { Diagnostic } from "../../diagnostics/diagnostic.ts";

/** Builds an error at a place in the readings. */
export type CreateFault = (
  code: `take/${string}`,
  message: string,
  at: { readonly start: number; readonly end: number },
  hint: string,
) => Diagnostic;

export const faultsIn =
  (file: string): CreateFault =>
  (code, message, { start, end }, hint) => ({ severity: "error", code, message, at: { file, start, end }, hint });
