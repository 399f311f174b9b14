import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import { COLUMNS, type ReadingsOptions } from "../../job/readings/readings-head.ts";
import type { Cell } from "../../parse/parse-delimited.ts";
import { acceptedUnits, findUnit, nounOf } from "../../units/table.ts";
import { shorten } from "../../util/shorten.ts";
import type { HeadName } from "./column-head.ts";
import type { Head } from "./find-head.ts";
import type { ErrorBuilder } from "./take-error.ts";
import type { PastedOptions } from "./take-options.ts";

/** A column of readings: its head cell, and its index among all columns. */
export type Column = {
  readonly name: Exclude<HeadName, "flow" | "note">;
  readonly unit?: string;
  readonly at: Cell;
  readonly index: number;
};
type ColumnRoles = {
  readonly columns: readonly Column[];
  /** Columns of words. */
  readonly notes: readonly number[];
  readonly leftOut: readonly string[];
  readonly faults: readonly Diagnostic[];
};

/** Assigns a meaning to each column and lists those left out; a near miss of a known name is an error. */
export function assignColumns(
  head: readonly Head[],
  { side, columns: stated, when }: PastedOptions,
  fault: ErrorBuilder,
): ColumnRoles {
  const mixed = checkStages(head, when, fault);
  if (mixed) return { columns: [], notes: [], leftOut: [], faults: [mixed] };
  const columns: Column[] = [];
  const notes: number[] = [];
  const leftOut: string[] = [];
  const faults: Diagnostic[] = [];
  for (const [index, { cell, head: read }] of head.entries()) {
    const typed = shorten(cell.text);
    const name = read?.name === "flow" ? side : read?.name;
    // The lift is the same before and after; a reading without either is in both.
    if (read?.when !== undefined && read.when !== when) continue;
    if (!read) {
      const near = stated || cell.text === "" ? undefined : didYouMean(cell.text.replace(/[/([].*$/s, ""), COLUMNS);
      if (near) {
        const hint = `did you mean ${near}? or say --columns`;
        faults.push(fault("take/column", `\`${typed}\` is not a column that is known`, cell, hint));
      } else if (cell.text !== "") leftOut.push(stated ? `column ${index + 1}` : `column \`${typed}\``);
    } else if (name === "note") notes.push(index);
    else if (name === undefined) {
      const hint = "add --side intake or --side exhaust";
      faults.push(fault("take/side", `\`${typed}\` does not say which side was flowed`, cell, hint));
    } else if (columns.some((one) => one.name === name)) {
      const hint = "say which to take: --columns lift,intake,- leaves the last one out";
      faults.push(fault("take/column", `a second column for \`${name}\``, cell, hint));
    } else columns.push({ name, ...(read.unit === undefined ? {} : { unit: read.unit }), at: cell, index });
  }
  const missing = faults.length === 0 ? checkSides(columns, head, side, fault) : [];
  return { columns, notes, leftOut, faults: [...faults, ...missing] };
}

/** A table with the readings of two stages needs both, and the other way round. */
function checkStages(head: readonly Head[], when: PastedOptions["when"], fault: ErrorBuilder): Diagnostic | undefined {
  const both = head.find((one) => one.head?.when !== undefined);
  if (both && when === undefined)
    return fault(
      "take/stages",
      `\`${shorten(both.cell.text)}\` is of one of two stages`,
      both.cell,
      'name both stages, the one before first: --stage "As received" --stage Finished',
    );
  if (when === undefined || head.some((one) => one.head?.when === when)) return undefined;
  const whole = { start: head[0]!.cell.start, end: head.at(-1)!.cell.end };
  return fault(
    "take/stages",
    `two stages are named, but no column says \`${when}\``,
    whole,
    "name the columns intake before, intake after, or name one --stage",
  );
}

function checkSides(
  columns: readonly Column[],
  head: readonly Head[],
  side: PastedOptions["side"],
  fault: ErrorBuilder,
): readonly Diagnostic[] {
  const sides = columns.map(({ name }) => name).filter((name) => name === "intake" || name === "exhaust");
  const whole = { start: head[0]!.cell.start, end: head.at(-1)!.cell.end };
  if (sides.length === 0) {
    const hint = "say what the columns are: --columns lift,intake,exhaust";
    return [fault("take/side", "there is no column `intake` or `exhaust`", whole, hint)];
  }
  if (!side || sides.includes(side)) return [];
  const message = `--side ${side} is asked for, but the head names the other side`;
  return [fault("take/side", message, whole, "leave --side out, or say --columns")];
}

/** Unit of a column: from its head, else the command line, else the job. */
export function columnUnit(
  { name, unit, at: { text } }: Column,
  { units }: PastedOptions,
  { units: declared, reads }: Pick<ReadingsOptions, "units" | "reads">,
): { readonly unit?: string } | { readonly fault: string; readonly hint: string } {
  const kind =
    name === "lift"
      ? "length"
      : name.startsWith("pressure")
        ? "pressure"
        : name.startsWith("range")
          ? undefined
          : reads === "percent"
            ? "ratio"
            : "flow";
  if (kind === undefined)
    return unit === undefined ? {} : { fault: `\`${text}\`: a range has no unit`, hint: "name the range alone" };
  const own = unit === undefined ? undefined : findUnit(kind, unit);
  if (unit !== undefined && !own) {
    const percent = kind === "flow" && findUnit("ratio", unit) !== undefined;
    return {
      fault: `\`${shorten(unit)}\` is not a unit of ${nounOf(kind)}`,
      hint: percent
        ? "a bench that shows percent of a range says `reads: percent` and its `ranges` in the job"
        : `it is one of ${acceptedUnits(kind)}`,
    };
  }
  if (kind === "ratio") return {};
  const option = units[kind] === undefined ? undefined : findUnit(kind, units[kind]);
  if (own && option && own.name !== option.name)
    return {
      fault: `the head says ${own.name}, --units says ${option.name}`,
      hint: "leave --units out, or mend the head",
    };
  const final = (own ?? option)?.name;
  if (final === undefined && declared[kind] === undefined)
    return {
      fault: `nobody says in which unit \`${name}\` is`,
      hint: `add --units ${kind}=${kind === "length" ? "mm" : kind === "flow" ? "cfm" : "inH2O"}, or put \`units\` into the job`,
    };
  return final === undefined || final === declared[kind] ? {} : { unit: final };
}
