import type { Diagnostic, Sources } from "../diagnostics/diagnostic.ts";
import { createLineLookup, placeOf } from "../diagnostics/line-counter.ts";
import type { Environment } from "./environment.ts";

/** A sheet of a run: the job that it is of, the file that stands, and the mark of what was typed. */
type MadeSheet = {
  readonly job: string;
  readonly template: string;
  readonly file: string;
  readonly mark: string;
};

/** The result of `make` or `check` as one object for other programs. */
export type JsonResult = {
  /** The environment to run in: no data but the object is written. */
  readonly environment: Environment;
  readonly add: (sheet: MadeSheet) => void;
  readonly print: () => void;
};

/** Collects what a run makes and says, and prints it at its end; messages still go to stderr. */
export function openJsonResult(environment: Environment): JsonResult {
  const sheets: MadeSheet[] = [];
  const diagnostics: object[] = [];
  return {
    environment: {
      ...environment,
      out: () => {},
      collect: (found, sources) => {
        diagnostics.push(...found.map((one) => plainDiagnostic(one, sources)));
      },
    },
    add: (sheet) => {
      sheets.push(sheet);
    },
    print: () => environment.out(`${JSON.stringify({ sheets, diagnostics }, null, 2)}\n`),
  };
}

function plainDiagnostic({ severity, code, message, at, hint }: Diagnostic, sources: Sources): object {
  const lines = at && createLineLookup(sources)(at.file);
  const place = at && lines ? placeOf(lines, at.start) : undefined;
  return {
    severity,
    code,
    message,
    ...(at && { file: at.file }),
    ...(place && { line: place.line, column: place.column }),
    ...(hint !== undefined && { hint }),
  };
}
