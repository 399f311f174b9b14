import type { Diagnostic } from "../diagnostics/diagnostic.ts";

/** Far above any job, and low enough that parsing stays fast. */
export const LIMITS = { bytes: 256 * 1024, tokens: 40_000, depth: 32 } as const;

/** Errors of a text before it is parsed: size, encoding, control characters. */
export function textFaults(file: string, text: string): readonly Diagnostic[] {
  const bytes = new TextEncoder().encode(text).length;
  if (bytes > LIMITS.bytes) {
    return [
      {
        severity: "error",
        code: "source/too-large",
        message: `the file has ${Math.ceil(bytes / 1024)} kB; at most ${LIMITS.bytes / 1024} kB are read`,
        at: { file, start: 0, end: 0 },
        hint: "one file holds one job; put long readings into a readings file of their own",
      },
    ];
  }
  const faults: Diagnostic[] = [];
  const undecoded = text.indexOf("\ufffd");
  if (undecoded >= 0) {
    faults.push({
      severity: "error",
      code: "source/not-utf8",
      message: "a character here could not be read",
      at: { file, start: undecoded, end: undecoded + 1 },
      note: "the file was not saved as UTF-8",
      hint: "save it again with encoding UTF-8",
    });
  }
  const control = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/.exec(text);
  if (control) {
    faults.push({
      severity: "error",
      code: "source/control-character",
      message: "a control character that cannot be seen stands here",
      at: { file, start: control.index, end: control.index + 1 },
      hint: "delete it and type the text around it again",
    });
  }
  return faults;
}
