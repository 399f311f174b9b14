import type { Diagnostic } from "@codemirror/lint";
import type { EditorState, Text } from "@codemirror/state";
import type { EditorPosition, Problem } from "../messages.ts";
import { diffHunks } from "./line-hunks.ts";

export function offsetOf({ line, ch }: EditorPosition, { doc }: EditorState): number {
  const found = doc.line(Math.min(Math.max(1, line), doc.lines));
  return Math.min(found.from + ch, found.to);
}

/** The marks of a problem in the text, with its fix as an action. */
export function diagnosticOf(
  { span, severity, message, note, hint, fix }: Problem,
  state: EditorState,
): readonly Diagnostic[] {
  if (!span) return [];
  const from = offsetOf(span.from, state);
  const to = Math.max(from, offsetOf(span.to, state));
  const words = [message, note, hint && `hint: ${hint}`].filter(Boolean).join("\n");
  const actions = fix && [
    {
      name: fixName(fix),
      apply: (view: { dispatch(spec: object): void; state: EditorState }, start: number, end: number) => {
        if (view.state.sliceDoc(start, end) === fix.before)
          view.dispatch({ changes: { from: start, to: end, insert: fix.after }, userEvent: "input" });
      },
    },
  ];
  return [{ from, to, severity, message: words, ...(actions ? { actions } : {}) }];
}

export const fixName = ({ after }: NonNullable<Problem["fix"]>) => `Write ${after}`;

/** The changes, line by line, that turn one document into another: positions between them stay. */
export function lineChanges(before: Text, after: Text): { from: number; to: number; insert: Text }[] {
  const hunks = diffHunks(before.toString().split("\n"), after.toString().split("\n"));
  return hunks.map(({ from, to, start, end }) => trimChange(before, after, [from, to], [start, end]));
}

type Lines = readonly [from: number, to: number];

/** The change from some lines to others, without what their ends have in common. */
function trimChange(before: Text, after: Text, old: Lines, fresh: Lines) {
  const offset = (doc: Text, line: number) => (line < doc.lines ? doc.line(line + 1).from : doc.length + 1);
  let [from, to] = old.map((line) => offset(before, line)) as [number, number];
  let [start, end] = fresh.map((line) => offset(after, line)) as [number, number];
  // Beyond the last line there is no break: the one before belongs to the change instead.
  if (to > before.length || end > after.length) {
    [from, start] = [Math.max(0, from - 1), Math.max(0, start - 1)];
    [to, end] = [to - 1, end - 1];
  }
  const [was, is] = [before.sliceString(from, to, "\n"), after.sliceString(start, end, "\n")];
  let [head, tail] = [0, 0];
  while (head < was.length && head < is.length && was[head] === is[head]) head++;
  while (tail < was.length - head && tail < is.length - head && was.at(-1 - tail) === is.at(-1 - tail)) tail++;
  return { from: from + head, to: to - tail, insert: after.slice(start + head, end - tail) };
}
