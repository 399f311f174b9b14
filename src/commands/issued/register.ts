import { dirname, join } from "node:path";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { appendLines } from "../../io/append-lines.ts";
import { withLock } from "../../io/with-lock.ts";
import type { Environment } from "../environment.ts";
import { displayPath } from "../find-jobs.ts";
import { countNoun, report } from "../report.ts";
import { issuedSheets } from "./issued-sheets.ts";
import { formatIssue, type Issue, issueKey, parseRegister, REGISTER_HEAD } from "./register-text.ts";

/** The lines of a register by ticket and revision. */
export type Lines = ReadonlyMap<string, readonly Issue[]>;

/** The registers that a run meets, each parsed once and then as it grows. */
export type Registers = {
  /** The register at a path; where there is none, it is begun with the sheets of the shop that stand in the output folder. */
  readonly open: (path: string, shop: string, outFolder: string) => Lines;
  /** The lines as they stand; undefined without a register. */
  readonly read: (path: string) => Lines | undefined;
  /** Appends the issues that are not there yet, unless `refuse` finds a fault in the lines that stand by then. */
  readonly enter: (path: string, issues: readonly Issue[], refuse: (lines: Lines) => Fault) => Fault;
};
export type Fault = Diagnostic | undefined;

const MAX_BYTES = 64 * 1024 * 1024;
export const registerPath = (folder: string) => join(folder, "issued.csv");

type Parsed = { readonly text: string; readonly lines: Map<string, Issue[]> };

export function openRegisters(environment: Environment): Registers {
  const known = new Map<string, Parsed>();
  const read = (path: string): Parsed | undefined => {
    const text = readText(path, environment);
    if (text === "") return undefined;
    const parsed = growParsed(known.get(path), path, text, environment);
    known.set(path, parsed);
    return parsed;
  };
  const append = (path: string, issues: readonly Issue[], isNew: boolean) =>
    appendLines(path, `${isNew ? REGISTER_HEAD : ""}${issues.map(formatIssue).join("")}`);
  const begin = (path: string, shop: string, outFolder: string) => {
    const standing = issuedSheets(outFolder, shop, environment.io);
    if (standing.length === 0) return;
    const entered = withLock(lockPath(path), () => {
      if (read(path)) return false;
      append(path, standing, true);
      read(path);
      return true;
    });
    const name = displayPath(environment.cwd, path);
    const folder = displayPath(environment.cwd, outFolder);
    if (entered)
      environment.err(`${name}: begun with ${countNoun(standing.length, "issued sheet")} found in ${folder}\n`);
  };
  return {
    read: (path) => read(path)?.lines,
    open: (path, shop, outFolder) => {
      // Read once in a batch, and the folder searched once: `enter` compares again.
      if (!known.has(path) && !read(path)) begin(path, shop, outFolder);
      const parsed = known.get(path) ?? { text: "", lines: new Map() };
      known.set(path, parsed);
      return parsed.lines;
    },
    enter: (path, issues, refuse) => {
      const missing = (lines: Lines) => issues.filter((issue) => !holds(lines, issue));
      return withLock(lockPath(path), () => {
        const standing = read(path);
        const lines = standing?.lines ?? new Map();
        const fault = refuse(lines);
        const wanted = fault ? [] : missing(lines);
        if (wanted.length > 0) append(path, wanted, standing === undefined);
        return fault;
      });
    },
  };
}

const lockPath = (path: string) => join(dirname(path), ".issued.lock");

// The name of a file holds its template.
const holds = (lines: Lines, issue: Issue): boolean =>
  (lines.get(issueKey(issue)) ?? []).some(
    ({ file, mark, figures }) => file === issue.file && mark === issue.mark && figures === issue.figures,
  );

/** The register's text, empty without one. What stands there and is no register is a system error: nothing may be issued past it. */
function readText(path: string, { io }: Environment): string {
  const found = io.readFile(path, MAX_BYTES);
  if (found.kind === "read") return decode(found.bytes, path);
  if (found.kind === "missing") return "";
  const codes = { folder: "EISDIR", other: "EEXIST", "too-large": "EFBIG", unreadable: "EACCES" };
  const code = codes[found.kind];
  throw Object.assign(new Error(code), { syscall: "read", code, path });
}

function decode(bytes: Uint8Array, path: string): string {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw Object.assign(new Error("EILSEQ"), { syscall: "read", code: "EILSEQ", path });
  }
}

/** Parses a register; of one that has only grown, what was appended. Its faults are said once. */
function growParsed(before: Parsed | undefined, path: string, text: string, environment: Environment): Parsed {
  if (before?.text === text) return before;
  const grown = before?.text.endsWith("\n") && text.startsWith(before.text);
  const start = before && grown ? before.text.length : 0;
  const name = displayPath(environment.cwd, path);
  const { issues, diagnostics } = parseRegister(name, text.slice(start));
  const located = diagnostics.map(({ at, ...fault }) => ({
    ...fault,
    ...(at && { at: { ...at, start: at.start + start, end: at.end + start } }),
  }));
  report(located, new Map([[name, text]]), environment);
  const lines = before && grown ? before.lines : new Map<string, Issue[]>();
  for (const issue of issues) lines.set(issueKey(issue), [...(lines.get(issueKey(issue)) ?? []), issue]);
  return { text, lines };
}
