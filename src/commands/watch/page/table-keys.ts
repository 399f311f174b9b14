import { EditorSelection, type EditorState, Prec, type TransactionSpec } from "@codemirror/state";
import { EditorView, type KeyBinding, keymap } from "@codemirror/view";
import { alignRows, cellsOf, tableAt } from "./table-at.ts";

/** Time in which Tab leaves the text after Escape [ms]. */
const TAB_LEAVES_MS = 10_000;

/** Tab and Shift+Tab go from cell to cell of a readings table; after Escape, Tab leaves the text. */
export const TABLE_KEYS: readonly KeyBinding[] = [
  { key: "Tab", run: (view) => dispatch(view, nextCell(view.state)) },
  { key: "Shift-Tab", run: (view) => dispatch(view, previousCell(view.state)) },
  { key: "Escape", run: (view) => letTabLeave(view, true) },
];

/** Escape lets Tab leave the text also where it closes something. */
export const LEAVE_BY_ESCAPE = Prec.highest(keymap.of([{ key: "Escape", run: (view) => letTabLeave(view, false) }]));

function letTabLeave(view: EditorView, isHandled: boolean): boolean {
  view.setTabFocusMode(TAB_LEAVES_MS);
  return isHandled;
}

/** Rows pasted from a spreadsheet take the columns and the indent of the readings table. */
export const PASTED_ROWS = EditorView.clipboardInputFilter.of((pasted, state) => {
  const { table, line } = place(state);
  if (!table || !/[\t\n]/.test(pasted.trim())) return pasted;
  const rows = alignRows(pasted, state.doc.line(table.first).text, table.indent);
  const before = line.text.slice(0, state.selection.main.from - line.from);
  const [first = "", ...rest] = rows;
  const start = before.trim() === "" ? first.slice(Math.min(before.length, table.indent)) : `\n${first}`;
  return [start, ...rest].join("\n");
});

function dispatch(view: EditorView, spec: TransactionSpec | undefined): boolean {
  if (spec) view.dispatch({ ...spec, scrollIntoView: true });
  return spec !== undefined;
}

function place({ doc, selection, readOnly }: EditorState) {
  const line = doc.lineAt(selection.main.head);
  const table = readOnly
    ? undefined
    : tableAt({ count: doc.lines, line: (number) => doc.line(number).text }, line.number);
  return { line, table, column: selection.main.head - line.from };
}

const select = (from: number, to: number): TransactionSpec => ({ selection: EditorSelection.range(from, to) });

/** The cell after the cursor; after the last of a short row a new one, after that of the last row a new row. */
function nextCell(state: EditorState): TransactionSpec | undefined {
  const { line, table, column } = place(state);
  if (!table || (line.number > table.last && line.text === "")) return undefined;
  const cells = cellsOf(line.text);
  const next = cells.find(({ from }) => from > column);
  if (next) return select(line.from + next.from, line.from + next.to);
  const ends = cellsOf(state.doc.line(table.first).text).map(({ to }) => to);
  if (cells.length > 0 && cells.length < ends.length && !line.text.includes("#"))
    return insertCell(state, line.to, line.text.trimEnd().length, ends[cells.length]!);
  if (line.number < table.last) {
    const below = state.doc.line(line.number + 1);
    const [first] = cellsOf(below.text);
    return first ? select(below.from + first.from, below.from + first.to) : select(below.to, below.to);
  }
  const insert = `${state.lineBreak}${" ".repeat(table.indent)}`;
  const last = state.doc.line(table.last);
  return typed(state, last.to, last.to, insert, last.to + 1 + table.indent);
}

/** Blanks up to where a number of usual width ends under its column's head. */
function insertCell(state: EditorState, end: number, width: number, column: number): TransactionSpec {
  const blanks = " ".repeat(Math.max(2, column - width - DEFAULT_COLUMN_CHARACTERS));
  const from = state.doc.lineAt(end).from + width;
  return typed(state, from, end, blanks, from + blanks.length);
}
const DEFAULT_COLUMN_CHARACTERS = 5;

const typed = (state: EditorState, from: number, to: number, insert: string, cursor: number): TransactionSpec => ({
  changes: { from, to, insert: state.toText(insert) },
  selection: EditorSelection.cursor(cursor),
  userEvent: "input",
});

function previousCell(state: EditorState): TransactionSpec | undefined {
  const { line, table } = place(state);
  if (!table) return undefined;
  const column = state.selection.main.from - line.from;
  const before = cellsOf(line.text).findLast(({ to }) => to < column);
  if (before) return select(line.from + before.from, line.from + before.to);
  if (line.number <= table.first) return undefined;
  const above = state.doc.line(line.number - 1);
  const last = cellsOf(above.text).at(-1);
  return last ? select(above.from + last.from, above.from + last.to) : select(above.to, above.to);
}
