import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { valueAt } from "../../job/validate/schema-errors.ts";
import { lineEnd, lineStart } from "../../parse/yaml/error-places.ts";
import type { Path } from "../../parse/yaml/source-document.ts";
import { inlineYaml } from "../../parse/yaml/stringify-yaml.ts";
import { findPlace, type JobText, listAt, type Place, RUN_KEYS, type RunKeys, type Target } from "./find-place.ts";

/** One stretch of the job's text and what stands there instead; all else stays as it is. */
export type Edit = {
  readonly start: number;
  readonly end: number;
  readonly text: string;
  /** Where each line of the table begins in `text`. */
  readonly lines: readonly number[];
};
export type Edited = { readonly edit: Edit } | { readonly fault: Diagnostic };

/** Finds the place for a table in a stage, and writes it there; `sides` are those that the table holds. */
export function editStage(job: JobText, target: Target, table: readonly string[], sides: readonly string[]): Edited {
  const found = findPlace(job, target, sides);
  return "fault" in found ? found : { edit: editAt(found.place, job, target, createWriter(job.text, table)) };
}

function editAt(place: Place, job: JobText, target: Target, write: Writer): Edit {
  switch (place.kind) {
    case "flow":
      return fillFlow(job, place.owner, write);
    case "first run":
      return addLast(job, place.stage, holder(target), write);
    case "new run": {
      const { at, lead } = behindLast(job, [...place.stage, "runs"]);
      return write(at, item(lead, runLines(target.run)), lead.length + 2);
    }
    case "new stage":
      return addStage(job, target, write);
  }
}

/** The `flow` of a stage or run: written anew, filled in, or replaced. */
function fillFlow(job: JobText, owner: Path, write: Writer): Edit {
  const { text, located } = job;
  const flow: Path = [...owner, "flow"];
  const key = located.keySpan(flow);
  const stands = valueAt(located.value, flow) !== undefined;
  if (!stands && text.slice(key.start, key.end).replace(/["']/g, "") !== "flow")
    return addLast(job, owner, SHORT_FORM, write);
  const value = located.span(flow);
  const colon = text.indexOf(":", key.end) + 1;
  const head = stands
    ? value.start
    : colon + (/^[ \t]*(?=[|>])/.exec(text.slice(colon, lineEnd(text, colon)))?.[0].length ?? 0);
  const endOfHead = lineEnd(text, head);
  const indent = keyColumn(job, owner) + 2;
  if (/^[|>]/.test(text.slice(head, endOfHead))) {
    const content = text.slice(endOfHead, stands ? Math.max(endOfHead, value.end) : endOfHead);
    const before = `|${text.slice(head + 1, endOfHead)}`;
    const stretch = { start: head, end: endOfHead + content.length, before };
    return write(endOfHead, [], /\n([ ]+)\S/.exec(content)?.[1]?.length ?? indent, stretch);
  }
  // Nothing after the colon, or a text on its line: what follows it, a comment, stays.
  const end = stands ? Math.max(value.end, head) : head;
  const line = lineEnd(text, end);
  const before = `${stands ? "" : " "}|${text.slice(end, line)}`;
  return write(line, [], indent, { start: head, end: line, before });
}

/** A stage at the end of the job, under a key `stages` that is there or not. */
function addStage(job: JobText, target: Target, write: Writer): Edit {
  const { text, located } = job;
  const { lines, indent } = holder(target);
  const stage = [`name: ${inlineYaml(target.stage)}`, ...lines];
  if (listAt(located, ["stages"]).length > 0) {
    const { at, lead } = behindLast(job, ["stages"]);
    return write(at, item(lead, stage), lead.length + indent);
  }
  const key = located.keySpan(["stages"]);
  const first = item("  - ", stage);
  return text.slice(key.start, key.end) === "stages"
    ? write(lineEnd(text, key.end), first, 4 + indent)
    : write(text.trimEnd().length, ["stages:", ...first], 4 + indent);
}

/** The lines above a table, and how far it is indented from the first of them. */
type Holder = { readonly lines: readonly string[]; readonly indent: number };

const SHORT_FORM: Holder = { lines: ["flow: |"], indent: 2 };

const holder = ({ run }: Target): Holder =>
  run ? { lines: ["runs:", ...item("  - ", runLines(run))], indent: 6 } : SHORT_FORM;

const runLines = (run: RunKeys = {}): readonly string[] => [
  ...RUN_KEYS.flatMap((key) => (run[key] === undefined ? [] : [`${key}: ${inlineYaml(run[key])}`])),
  "flow: |",
];

/** The lines of an item of a list; `lead` ends with its dash and blanks. */
const item = (lead: string, lines: readonly string[]): readonly string[] =>
  lines.map((line, at) => `${at === 0 ? lead : " ".repeat(lead.length)}${line}`);

/** Keys behind all others of a stage or run. */
function addLast(job: JobText, owner: Path, { lines, indent }: Holder, write: Writer): Edit {
  const column = keyColumn(job, owner);
  const at = contentEnd(job.text, job.located.span(owner).start, column);
  return write(
    at,
    lines.map((line) => " ".repeat(column) + line),
    column + indent,
  );
}

/** Where an item goes behind the last of a list, and what it begins with. */
function behindLast({ text, located }: JobText, list: Path): { readonly at: number; readonly lead: string } {
  const first = located.span([...list, 0]).start;
  const last = located.span([...list, listAt(located, list).length - 1]).start;
  const dash = columnOf(text, text.lastIndexOf("-", first - 1));
  const lead = `${" ".repeat(dash)}-`.padEnd(Math.max(columnOf(text, first), dash + 2));
  return { at: contentEnd(text, last, dash + 1), lead };
}

/** The column of the keys of a stage or run. */
function keyColumn({ text, located }: JobText, owner: Path): number {
  const value = valueAt(located.value, owner);
  const [key = ""] = typeof value === "object" ? Object.keys(value) : [];
  return columnOf(text, located.keySpan([...owner, key]).start);
}

function columnOf(text: string, offset: number): number {
  const start = lineStart(text, offset);
  return offset - start - (text[start] === "\ufeff" ? 1 : 0);
}

/** The end of the last line that belongs to what begins at an offset with this indent; comments behind it do not. */
function contentEnd(text: string, from: number, indent: number): number {
  let last = lineEnd(text, from);
  for (let at = text.indexOf("\n", from) + 1; at > 0 && at < text.length; at = text.indexOf("\n", at) + 1) {
    const line = text.slice(at, lineEnd(text, at));
    const lead = line.length - line.trimStart().length;
    if (line.trim() === "") continue;
    const comment = line.trimStart().startsWith("#");
    if (lead < indent && !comment) break;
    if (!comment || lead > indent) last = at + line.length;
  }
  return last;
}

type Stretch = { readonly start: number; readonly end: number; readonly before: string };
type Writer = (at: number, lead: readonly string[], indent: number, instead?: Stretch) => Edit;

/** Writes lines and the table under them behind an offset, with the line ends of the text. */
function createWriter(text: string, table: readonly string[]): Writer {
  const eol = /\r?\n/.exec(text)?.[0] ?? "\n";
  return (at, lead, indent, instead = { start: at, end: at, before: "" }) => {
    let out = instead.before;
    const lines: number[] = [];
    for (const line of lead) out += `${eol}${line}`;
    for (const line of table) {
      out += `${eol}${" ".repeat(indent)}`;
      lines.push(out.length);
      out += line;
    }
    return { start: instead.start, end: instead.end, text: out, lines };
  };
}
