import { resolve } from "node:path";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { decodeBytes } from "../../parse/decode-bytes.ts";
import { FILE_LIMITS } from "../../project/limits.ts";
import { loadFile } from "../../project/load-file.ts";
import type { Environment } from "../environment.ts";
import { UsageError } from "../environment.ts";

export type ReadingsSource = { readonly name: string; readonly text: string; readonly encoding: string };

/** Reads the readings from a file or standard input. */
export async function readSource(
  readings: string,
  environment: Environment,
): Promise<ReadingsSource | { readonly fault: Diagnostic }> {
  const pasted = readings === "-";
  const name = pasted ? "pasted" : readings;
  const fault = (code: Diagnostic["code"], message: string, hint: string) => ({
    fault: { severity: "error", code, message, at: { file: name, start: 0, end: 0 }, hint } as const,
  });
  let bytes: Uint8Array;
  if (pasted) {
    if (!environment.input) throw new UsageError("nothing can be pasted here: name a file");
    if (environment.terminal)
      environment.err("paste the table, then press Ctrl-D on a line of its own (Windows: Ctrl-Z, Enter)\n");
    const got = await environment.input(FILE_LIMITS.readings);
    if (!got)
      return fault(
        "take/too-large",
        `more than ${FILE_LIMITS.readings / 1024} kB were pasted`,
        "paste one table of readings",
      );
    bytes = got;
  } else {
    const path = resolve(environment.cwd, readings);
    const found = loadFile(
      { real: environment.io.realPath(path) ?? path, name, what: "file of readings", largest: FILE_LIMITS.readings },
      environment.io,
    );
    if ("why" in found) return fault(found.why.code, found.why.message, found.why.hint);
    bytes = found.bytes;
  }
  const decoded = decodeBytes(bytes);
  if (decoded.kind === "other")
    return fault(
      "take/not-a-text",
      `\`${name}\` is ${decoded.what}`,
      "save the table as CSV or text, or copy its cells and paste them: headsheet take - …",
    );
  // Some old programs end lines with a carriage return alone.
  const text = decoded.text.includes("\n") ? decoded.text : decoded.text.replaceAll("\r", "\n");
  return { name, text, encoding: decoded.encoding };
}
