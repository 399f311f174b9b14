import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import type { Kind } from "../../units/table.ts";
import type { FaultParams } from "./plain.ts";
import { type DeclaredUnits, readQuantity } from "./quantities.ts";

/** A word of a table with its offsets in the table's text. */
type Word = { readonly text: string; readonly start: number; readonly end: number };

/** An error in a table, with its offsets in the table's text. */
export type TableFault = FaultParams & { readonly message: string; readonly start: number; readonly end: number };

/** The kind of a column's values, and their sign. */
type Column = {
  readonly kind: Kind | "words";
  readonly sign?: "positive" | "zero or more" | "any";
  /** A dash stands for what was not taken. */
  readonly gaps?: true;
  /** Words accepted in place of a value. */
  readonly said?: readonly string[];
};

export type Cells = Readonly<Record<string, { readonly value?: number; readonly words?: string; readonly at: Word }>>;

/** The words of each line that has any; `#` starts a comment. */
function linesOfWords(text: string): Word[][] {
  const lines: Word[][] = [];
  let offset = 0;
  for (const line of text.split("\n")) {
    const remark = line.search(/(^|\s)#/);
    const words = [...(remark < 0 ? line : line.slice(0, remark)).matchAll(/[^\s;]+/g)].map((match) => ({
      text: match[0],
      start: offset + match.index,
      end: offset + match.index + match[0].length,
    }));
    if (words.length > 0) lines.push(words);
    offset += line.length + 1;
  }
  return lines;
}

/**
 * Parses a small table of numbers typed under a key: one head line, blanks or tabs between. A head may carry the unit of its
 * column (`at/mm`). A last column of words takes the rest of its line.
 */
export function readTextTable(
  text: string,
  columns: Readonly<Record<string, Column>>,
  units: DeclaredUnits,
): { readonly rows: readonly Cells[]; readonly names: readonly string[]; readonly faults: readonly TableFault[] } {
  const [head = [], ...body] = linesOfWords(text);
  const faults: TableFault[] = [];
  const names: string[] = [];
  const bare: (string | undefined)[] = [];
  for (const word of head) {
    const [name = "", unit] = word.text.toLowerCase().split("/");
    const column = columns[name];
    if (!column)
      faults.push(fault(word, "job/table-column", `unknown column \`${word.text}\``, columnHint(name, columns)));
    else if (names.includes(name)) faults.push(fault(word, "job/table-column", `two columns named \`${name}\``));
    names.push(name);
    bare.push(unit ?? (column && column.kind !== "words" ? units[column.kind] : undefined));
  }
  if (faults.length > 0 || head.length === 0) return { rows: [], names, faults };

  const rows: Cells[] = [];
  const wordColumn = names.findIndex((name) => columns[name]?.kind === "words");
  for (const line of body) {
    const first = line[0] as Word;
    const last = line.at(-1) as Word;
    const whole: Word = { text: "", start: first.start, end: last.end };
    const least = wordColumn >= 0 && wordColumn === names.length - 1 ? names.length - 1 : names.length;
    if (line.length < least || (line.length > names.length && least === names.length)) {
      const count = `${line.length} value${line.length === 1 ? "" : "s"} under ${names.length} columns`;
      faults.push(fault(whole, "job/table-row", `this row has ${count}`, "write one value under each column"));
      continue;
    }
    const cells: Record<string, Cells[string]> = {};
    names.forEach((name, index) => {
      const column = columns[name] as Column;
      const at = line[index];
      if (!at || (column.gaps && isDash(at.text))) return;
      if (column.kind === "words") {
        cells[name] = {
          words: line
            .slice(index, index === names.length - 1 ? undefined : index + 1)
            .map((word) => word.text)
            .join(" "),
          at,
        };
        return;
      }
      const said = column.said?.find((one) => one === at.text.toLowerCase());
      if (said !== undefined) {
        cells[name] = { words: said, at };
        return;
      }
      const read = readQuantity(at.text, column.kind, bare[index], column.sign);
      if (read.ok) cells[name] = { value: read.value as number, at };
      else faults.push(fault(at, read.code, read.message, read.hint));
    });
    rows.push(cells);
  }
  return { rows, names, faults };
}

const isDash = (text: string) => /^[-–—]$/.test(text);

const fault = (at: Word, code: FaultParams["code"], message: string, hint?: string): TableFault => ({
  code,
  message,
  ...(hint === undefined ? {} : { hint }),
  start: at.start,
  end: at.end,
});

function columnHint(typed: string, columns: object): string {
  const near = didYouMean(typed, Object.keys(columns));
  return near === undefined ? `columns are ${Object.keys(columns).join(", ")}` : `did you mean ${near}?`;
}
