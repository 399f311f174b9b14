import type { Diagnostic, Span } from "../../diagnostics/diagnostic.ts";
import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import { valueAt } from "../../job/issues.ts";
import type { RunTable } from "../../job/run-tables.ts";
import { lineEnd, lineStart } from "../../source/fault-places.ts";
import type { Located, Path, Plain } from "../../source/located.ts";
import { inlineYaml } from "../../source/stringify-yaml.ts";

/** Where the readings are to go. */
export type Target = {
  readonly stage: string;
  readonly newStage: boolean;
  readonly replace: boolean;
  /** A run of its own in the stage; undefined for the short form. */
  readonly run?: RunKeys;
};
export type RunKeys = Readonly<Partial<Record<"cylinder" | "set" | "mount" | "hand", string>>>;
const RUN_KEYS = ["cylinder", "set", "mount", "hand"] as const;
const RUN_DEFAULTS: RunKeys = { cylinder: "1", mount: "1" };

/** One stretch of the job's text and what stands there instead; all else stays as it is. */
export type Edit = {
  readonly start: number;
  readonly end: number;
  readonly text: string;
  /** Where each line of the table begins in `text`. */
  readonly lines: readonly number[];
};
export type Edited = { readonly edit: Edit } | { readonly fault: Diagnostic };

type Sides = readonly string[];
type JobText = { readonly text: string; readonly located: Located; readonly tables: readonly RunTable[] };

/** Finds the place for a table in a stage, and writes it there; `sides` are those that the table holds. */
export function editStage(job: JobText, target: Target, table: readonly string[], sides: Sides): Edited {
  const { text, located } = job;
  const write = pen(text, table);
  const refuse = (code: `take/${string}`, message: string, at: Span, hint: string): Edited => ({
    fault: { severity: "error", code, message, at, hint },
  });
  const bracketed = (path: Path, what: string): Edited | undefined =>
    /^[[{]/.test(text.slice(located.span(path).start))
      ? refuse(
          "take/brackets",
          `${what} is written in brackets, where a table cannot stand`,
          located.span(path),
          "write it with one key a line, indented alike",
        )
      : undefined;

  const stages = listAt(located, ["stages"]);
  const names = stages.map((stage) => textAt(stage, "name") ?? "");
  const index = names.indexOf(target.stage);
  if (index < 0) {
    if (target.newStage) return bracketedList() ?? { edit: newStage() };
    const near =
      didYouMean(target.stage, names) ?? names.find((name) => name.toLowerCase() === target.stage.toLowerCase());
    const known =
      names.length > 0 ? `stages are ${names.map((name) => `\`${name}\``).join(", ")}` : "it has no stages yet";
    return refuse(
      "take/stage",
      `the job has no stage \`${target.stage}\``,
      located.keySpan(["stages"]),
      `${near ? `did you mean \`${near}\`? Else` : `${known};`} --new-stage makes it`,
    );
  }
  const path: Path = ["stages", index];
  const name = `stage \`${target.stage}\``;
  if (names.indexOf(target.stage, index + 1) >= 0)
    return refuse(
      "take/stage",
      `there are two stages named \`${target.stage}\``,
      located.span([...path, "name"]),
      "give each stage a name of its own",
    );
  if (target.newStage)
    return refuse(
      "take/stage",
      `there is a stage \`${target.stage}\` already`,
      located.span([...path, "name"]),
      "leave --new-stage out",
    );
  const inBrackets = bracketed(path, name);
  if (inBrackets) return inBrackets;

  const runs = listAt(located, [...path, "runs"]);
  if (!target.run) {
    if (runs.length > 0)
      return refuse(
        "take/runs",
        `${name} holds its readings as runs`,
        located.keySpan([...path, "runs"]),
        `say which: ${runs.map(inOptions).slice(0, 4).join(", or ")}`,
      );
    return fill(path, name);
  }
  if (hasReadings([...path, "flow"]))
    return refuse(
      "take/runs",
      `${name} holds its readings under \`flow\`, which is one run`,
      located.keySpan([...path, "flow"]),
      "leave --cylinder, --set, --mount and --hand out; or first put its `flow` under `runs:`, behind a dash",
    );
  const wanted = target.run;
  const same = runs.findIndex((run, at) => isRun(run, wanted) && sharesSide(index, at));
  if (same >= 0) {
    const run: Path = [...path, "runs", same];
    const file = textAt(runs[same]!, "file");
    if (file !== undefined)
      return refuse(
        "take/runs",
        `the readings of this run stand in the file \`${file}\``,
        located.span([...run, "file"]),
        "put the new readings into that file, or take its key out of the job",
      );
    return bracketed(run, "this run") ?? fill(run, `the run ${inOptions(runs[same]!)} of ${name}`);
  }
  return runs.length > 0 ? (bracketed([...path, "runs"], "`runs`") ?? { edit: newRun() }) : { edit: firstRun() };

  function isRun(run: Plain, keys: RunKeys): boolean {
    return RUN_KEYS.every((key) => (textAt(run, key) ?? RUN_DEFAULTS[key]) === (keys[key] ?? RUN_DEFAULTS[key]));
  }

  /** Two sweeps of one port are one run; the intake from one file and the exhaust from another are two. */
  function sharesSide(stage: number, at: number): boolean {
    const found = job.tables.find((one) => one.stage === stage && one.run === at)?.table;
    return !found || found.columns.some((column) => sides.includes(column.name));
  }

  /** A head without a line under it is no reading yet. */
  function hasReadings(at: Path): boolean {
    const flow = valueAt(located.value, at);
    if (flow === undefined) return false;
    return (
      typeof flow !== "string" ||
      flow.split("\n").filter((line) => line.trim() !== "" && !line.trimStart().startsWith("#")).length > 1
    );
  }

  /** The `flow` of a stage or run: written anew, filled in, or replaced. */
  function fill(owner: Path, what: string): Edited {
    const flow: Path = [...owner, "flow"];
    const key = located.keySpan(flow);
    const column = columnOf(located.keySpan([...owner, firstKey(valueAt(located.value, owner))]).start);
    const stands = valueAt(located.value, flow) !== undefined;
    if (!stands && text.slice(key.start, key.end).replace(/["']/g, "") !== "flow")
      return {
        edit: write(contentEnd(located.span(owner).start, column), [`${" ".repeat(column)}flow: |`], column + 2),
      };
    if (hasReadings(flow) && !target.replace)
      return refuse("take/readings-there", `${what} has readings already`, key, "--replace puts these in their place");
    const value = located.span(flow);
    const colon = text.indexOf(":", key.end) + 1;
    const head = stands
      ? value.start
      : colon + (/^[ \t]*(?=[|>])/.exec(text.slice(colon, lineEnd(text, colon)))?.[0].length ?? 0);
    const endOfHead = lineEnd(text, head);
    if (/^[|>]/.test(text.slice(head, endOfHead))) {
      const content = text.slice(endOfHead, stands ? Math.max(endOfHead, value.end) : endOfHead);
      const indent = /\n([ ]+)\S/.exec(content)?.[1]?.length ?? column + 2;
      const before = `|${text.slice(head + 1, endOfHead)}`;
      return { edit: write(endOfHead, [], indent, { start: head, end: endOfHead + content.length, before }) };
    }
    // Nothing after the colon, or a text on its line: what follows it, a comment, stays.
    const end = stands ? Math.max(value.end, head) : head;
    const line = lineEnd(text, end);
    return {
      edit: write(line, [], column + 2, {
        start: head,
        end: line,
        before: `${stands ? "" : " "}|${text.slice(end, line)}`,
      }),
    };
  }

  function firstRun(): Edit {
    const column = columnOf(located.keySpan([...path, firstKey(stages[index])]).start);
    const pad = " ".repeat(column);
    return write(
      contentEnd(located.span(path).start, column),
      [`${pad}runs:`, ...runLines(`${pad}  - `, `${pad}    `)],
      column + 6,
    );
  }

  function newRun(): Edit {
    const last = located.span([...path, "runs", runs.length - 1]).start;
    const column = columnOf(located.span([...path, "runs", 0]).start);
    const dash = columnOf(text.lastIndexOf("-", located.span([...path, "runs", 0]).start - 1));
    const lead = `${" ".repeat(dash)}-`.padEnd(Math.max(column, dash + 2));
    const pad = " ".repeat(lead.length);
    return write(contentEnd(last, dash + 1), runLines(lead, pad), pad.length + 2);
  }

  function runLines(lead: string, pad: string): string[] {
    const keys = RUN_KEYS.flatMap((key) =>
      target.run?.[key] === undefined ? [] : [`${key}: ${inlineYaml(target.run[key])}`],
    );
    return [...keys, "flow: |"].map((line, at) => `${at === 0 ? lead : pad}${line}`);
  }

  function bracketedList(): Edited | undefined {
    return stages.length > 0 ? bracketed(["stages"], "`stages`") : undefined;
  }

  function newStage(): Edit {
    const named = `name: ${inlineYaml(target.stage)}`;
    const lines = (lead: string, pad: string) => [
      `${lead}${named}`,
      ...(target.run ? [`${pad}runs:`, ...runLines(`${pad}  - `, `${pad}    `)] : [`${pad}flow: |`]),
    ];
    const deeper = target.run ? 6 : 2;
    if (stages.length > 0) {
      const column = columnOf(located.span(["stages", 0]).start);
      const dash = columnOf(text.lastIndexOf("-", located.span(["stages", 0]).start - 1));
      const lead = `${" ".repeat(dash)}-`.padEnd(Math.max(column, dash + 2));
      return write(
        contentEnd(located.span(["stages", stages.length - 1]).start, dash + 1),
        lines(lead, " ".repeat(lead.length)),
        lead.length + deeper,
      );
    }
    const key = located.keySpan(["stages"]);
    if (text.slice(key.start, key.end) === "stages")
      return write(lineEnd(text, key.end), lines("  - ", "    "), 4 + deeper);
    const end = text.trimEnd().length;
    return write(end, ["stages:", ...lines("  - ", "    ")], 4 + deeper);
  }

  function columnOf(offset: number): number {
    const start = lineStart(text, offset);
    return offset - start - (text[start] === "\ufeff" ? 1 : 0);
  }

  /** The end of the last line that belongs to what begins at an offset with this indent; comments behind it do not. */
  function contentEnd(from: number, indent: number): number {
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
}

type Stretch = { readonly start: number; readonly end: number; readonly before: string };

/** Writes lines and the table under them behind an offset, with the line ends of the text. */
const pen = (text: string, table: readonly string[]) => {
  const eol = /\r?\n/.exec(text)?.[0] ?? "\n";
  return (
    at: number,
    lead: readonly string[],
    indent: number,
    instead: Stretch = { start: at, end: at, before: "" },
  ): Edit => {
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
};

const listAt = (located: Located, path: Path): readonly Plain[] => {
  const value = valueAt(located.value, path);
  return Array.isArray(value) ? value : [];
};
const textAt = (value: Plain, key: string): string | undefined => {
  const found = valueAt(value, [key]);
  return typeof found === "string" ? found : undefined;
};
const firstKey = (value: Plain | undefined): string => (typeof value === "object" ? (Object.keys(value)[0] ?? "") : "");
const inOptions = (run: Plain): string =>
  RUN_KEYS.flatMap((key) => {
    const value = textAt(run, key) ?? (key === "cylinder" ? "1" : undefined);
    return value === undefined ? [] : [`--${key} ${/\s/.test(value) ? JSON.stringify(value) : value}`];
  }).join(" ");
