import { columnsOfCharacter, findEscapes, visibleCharacter } from "./visible.ts";

/** A source line as shown: its text, the columns before the carets, and how many carets. */
type Excerpt = { readonly text: string; readonly before: number; readonly carets: number };

type Cell = { readonly text: string; readonly columns: number; readonly at: number };

/** Widest line shown [columns]; longer lines are trimmed around the span, with `LEAD` columns before it. */
const WIDEST = 100;
const LEAD = 30;

function cellsOf(line: string): readonly Cell[] {
  const escapes = findEscapes(line);
  const cells: Cell[] = [];
  let at = 0;
  for (const character of line) {
    const place = at;
    at += character.length;
    const text = escapes.some(({ start, end }) => place >= start && place < end) ? "" : visibleCharacter(character);
    cells.push({ text, columns: columnsOfCharacter(text), at: place });
  }
  return cells;
}

const width = (cells: readonly Cell[]) => cells.reduce((sum, cell) => sum + cell.columns, 0);

/** Excerpt of a line with carets under the characters [start, end): at least one caret, also at the line's end. */
export function excerpt(line: string, start: number, end: number): Excerpt {
  // In a very long line only a window around the span is split into cells.
  const from = Math.max(0, start - 4 * WIDEST);
  const cells = cellsOf(line.slice(from, start + 4 * WIDEST)).map((cell) => ({ ...cell, at: cell.at + from }));
  const before = cells.filter((cell) => cell.at < start);
  const marked = cells.filter((cell) => cell.at >= start && cell.at < end);
  const after = cells.filter((cell) => cell.at >= Math.max(start, end));

  const whole = from === 0 && start + 4 * WIDEST >= line.length && width(cells) <= WIDEST;
  const shownBefore = whole ? before : keepLast(before, LEAD);
  const shownMarked = whole ? marked : keepFirst(marked, WIDEST - LEAD);
  const room = WIDEST - width(shownBefore) - width(shownMarked);
  const shownAfter = whole ? after : keepFirst(shownMarked.length < marked.length ? [] : after, room);

  const cutLeft = from > 0 || shownBefore.length < before.length;
  const last = shownAfter.at(-1) ?? shownMarked.at(-1) ?? shownBefore.at(-1);
  const cutRight = last !== undefined && last.at < (cells.at(-1)?.at ?? 0);
  const text = [...shownBefore, ...shownMarked, ...shownAfter].map((cell) => cell.text).join("");
  return {
    text: `${cutLeft ? "…" : ""}${text}${cutRight ? "…" : ""}`,
    before: width(shownBefore) + (cutLeft ? 1 : 0),
    carets: Math.max(1, width(shownMarked)),
  };
}

function keepFirst(cells: readonly Cell[], columns: number): readonly Cell[] {
  let used = 0;
  let count = 0;
  for (const cell of cells) {
    used += cell.columns;
    if (used > columns) break;
    count++;
  }
  return cells.slice(0, count);
}

const keepLast = (cells: readonly Cell[], columns: number) => [...keepFirst([...cells].reverse(), columns)].reverse();
