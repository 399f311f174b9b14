import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { lineEnd, lineStart } from "../../parse/yaml/error-places.ts";
import { type Path, valueAt } from "../../parse/yaml/source-document.ts";
import { inlineYaml } from "../../parse/yaml/stringify-yaml.ts";
import {
  type EditableJob,
  findPlace,
  findValves,
  listAt,
  type Place,
  RUN_KEYS,
  type RunKeys,
  type TableKey,
  type Target,
} from "./find-place.ts";

/** Replacement of one range of the job's text. */
export type Edit = {
  readonly start: number;
  readonly end: number;
  readonly text: string;
  /** Where each line of the table begins in `text`. */
  readonly lines: readonly number[];
};
type EditResult = { readonly edit: Edit } | { readonly fault: Diagnostic };

/** Computes the edit that puts a table of valves into a stage that is there. */
export function editValves(job: EditableJob, target: Target, table: readonly string[]): EditResult {
  const found = findValves(job, target);
  return "fault" in found ? found : { edit: fillTable(job, found.stage, "valve_train", createWriter(job.text, table)) };
}

/** Computes the edit that puts a table into a stage; `sides` are the table's columns of flow. */
export function editStage(
  job: EditableJob,
  target: Target,
  table: readonly string[],
  sides: readonly string[],
): EditResult {
  const found = findPlace(job, target, sides);
  return "fault" in found ? found : { edit: editPlace(found.place, job, target, createWriter(job.text, table)) };
}

function editPlace(place: Place, job: EditableJob, target: Target, write: Writer): Edit {
  switch (place.kind) {
    case "flow":
      return fillTable(job, place.owner, "flow", write);
    case "first run":
      return appendKeys(job, place.stage, tableHolder(target), write);
    case "new run": {
      const { at, lead } = afterLastItem(job, [...place.stage, "runs"]);
      return write(at, listItem(lead, runLines(target.run)), lead.length + 2);
    }
    case "new stage":
      return addStage(job, target, write);
  }
}

/** Adds, fills or replaces a table under a key of a stage or run. */
function fillTable(job: EditableJob, owner: Path, name: TableKey, write: Writer): Edit {
  const { text, located } = job;
  const flow: Path = [...owner, name];
  const key = located.keySpan(flow);
  const exists = valueAt(located.value, flow) !== undefined;
  if (!exists && text.slice(key.start, key.end).replace(/["']/g, "") !== name)
    return appendKeys(job, owner, { lines: [`${name}: |`], indent: 2 }, write);
  const value = located.span(flow);
  const colon = text.indexOf(":", key.end) + 1;
  const head = exists
    ? value.start
    : colon + (/^[ \t]*(?=[|>])/.exec(text.slice(colon, lineEnd(text, colon)))?.[0].length ?? 0);
  const endOfHead = lineEnd(text, head);
  const indent = keyColumn(job, owner) + 2;
  if (/^[|>]/.test(text.slice(head, endOfHead))) {
    const content = text.slice(endOfHead, exists ? Math.max(endOfHead, value.end) : endOfHead);
    const before = `|${text.slice(head + 1, endOfHead)}`;
    const stretch = { start: head, end: endOfHead + content.length, before, comments: commentLines(content) };
    return write(endOfHead, [], /\n([ ]+)\S/.exec(content)?.[1]?.length ?? indent, stretch);
  }
  // An empty value, or a plain one on the line of the key: a comment behind it is preserved.
  const end = exists ? Math.max(value.end, head) : head;
  const line = lineEnd(text, end);
  const before = `${exists ? "" : " "}|${text.slice(end, line)}`;
  return write(line, [], indent, { start: head, end: line, before });
}

function commentLines(table: string): readonly CommentLine[] {
  const comments: CommentLine[] = [];
  let after = 0;
  for (const line of table.split("\n").map((one) => one.trim())) {
    if (line.startsWith("#")) comments.push({ after, text: line });
    else if (line !== "") after++;
  }
  return comments;
}

/** Adds a stage at the end of the job, with the key `stages` if it is missing. */
function addStage(job: EditableJob, target: Target, write: Writer): Edit {
  const { text, located } = job;
  const { lines, indent } = tableHolder(target);
  const stage = [`name: ${inlineYaml(target.stage)}`, ...lines];
  if (listAt(located, ["stages"]).length > 0) {
    const { at, lead } = afterLastItem(job, ["stages"]);
    return write(at, listItem(lead, stage), lead.length + indent);
  }
  const key = located.keySpan(["stages"]);
  const first = listItem("  - ", stage);
  return text.slice(key.start, key.end) === "stages"
    ? write(lineEnd(text, key.end), first, 4 + indent)
    : write(text.trimEnd().length, ["stages:", ...first], 4 + indent);
}

/** Lines of the keys above a new table, and the table's indent relative to the first of them. */
type Holder = { readonly lines: readonly string[]; readonly indent: number };

const SHORT_FORM: Holder = { lines: ["flow: |"], indent: 2 };

const tableHolder = ({ run }: Target): Holder =>
  run ? { lines: ["runs:", ...listItem("  - ", runLines(run))], indent: 6 } : SHORT_FORM;

const runLines = (run: RunKeys = {}): readonly string[] => [
  ...RUN_KEYS.flatMap((key) => (run[key] === undefined ? [] : [`${key}: ${inlineYaml(run[key])}`])),
  "flow: |",
];

/** Lines of a list item; `lead` ends with its dash and blanks. */
const listItem = (lead: string, lines: readonly string[]): readonly string[] =>
  lines.map((line, at) => `${at === 0 ? lead : " ".repeat(lead.length)}${line}`);

/** Appends keys to a stage or run. */
function appendKeys(job: EditableJob, owner: Path, { lines, indent }: Holder, write: Writer): Edit {
  const column = keyColumn(job, owner);
  const at = contentEnd(job.text, job.located.span(owner).start, column);
  return write(
    at,
    lines.map((line) => " ".repeat(column) + line),
    column + indent,
  );
}

/** Offset behind the last item of a list, and the lead of a new one. */
function afterLastItem({ text, located }: EditableJob, list: Path): { readonly at: number; readonly lead: string } {
  const first = located.span([...list, 0]).start;
  const last = located.span([...list, listAt(located, list).length - 1]).start;
  const dash = columnOf(text, text.lastIndexOf("-", first - 1));
  const lead = `${" ".repeat(dash)}-`.padEnd(Math.max(columnOf(text, first), dash + 2));
  return { at: contentEnd(text, last, dash + 1), lead };
}

/** Column at which the keys of a stage or run start. */
function keyColumn({ text, located }: EditableJob, owner: Path): number {
  const value = valueAt(located.value, owner);
  const [key = ""] = typeof value === "object" ? Object.keys(value) : [];
  return columnOf(text, located.keySpan([...owner, key]).start);
}

function columnOf(text: string, offset: number): number {
  const start = lineStart(text, offset);
  return offset - start - (text[start] === "\ufeff" ? 1 : 0);
}

/** End of the last line that belongs to the content at an offset with this indent, without trailing comments. */
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

/** A comment line of the replaced table, and the number of table rows above it. */
type CommentLine = { readonly after: number; readonly text: string };
type TextRange = {
  readonly start: number;
  readonly end: number;
  readonly before: string;
  readonly comments?: readonly CommentLine[];
};
type Writer = (at: number, lead: readonly string[], indent: number, replaced?: TextRange) => Edit;

/** Returns a function that builds the edit for lines and the table below them, with the line ends of the text. */
function createWriter(text: string, table: readonly string[]): Writer {
  const eol = /\r?\n/.exec(text)?.[0] ?? "\n";
  return (at, lead, indent, replaced = { start: at, end: at, before: "" }) => {
    let out = replaced.before;
    const lines: number[] = [];
    for (const line of lead) out += `${eol}${line}`;
    const comments = [...(replaced.comments ?? [])];
    const putComments = (until: number) => {
      while (comments[0] && comments[0].after <= until) out += `${eol}${" ".repeat(indent)}${comments.shift()!.text}`;
    };
    for (const [index, line] of table.entries()) {
      putComments(index);
      out += `${eol}${" ".repeat(indent)}`;
      lines.push(out.length);
      out += line;
    }
    putComments(Number.POSITIVE_INFINITY);
    return { start: replaced.start, end: replaced.end, text: out, lines };
  };
}
