import { defaultKeymap, history, historyKeymap, isolateHistory, undo } from "@codemirror/commands";
import { yaml } from "@codemirror/lang-yaml";
import { bracketMatching, indentOnInput, indentUnit, syntaxHighlighting } from "@codemirror/language";
import { type Diagnostic, forEachDiagnostic, lintKeymap, setDiagnostics } from "@codemirror/lint";
import { search, searchKeymap } from "@codemirror/search";
import { EditorState, type Extension, Transaction } from "@codemirror/state";
import {
  drawSelection,
  EditorView,
  highlightActiveLine,
  highlightSpecialChars,
  keymap,
  lineNumbers,
} from "@codemirror/view";
import type { EditorPosition, Problem } from "../messages.ts";
import { acceptFirstCompletion, completion } from "./complete.ts";
import type { Schema } from "./completions.ts";
import { diagnosticOf, lineChanges, offsetOf } from "./editor-positions.ts";
import { COLOURS, THEME } from "./editor-theme.ts";
import { helpKeys, keyHelp } from "./key-help.ts";
import { LEAVE_BY_ESCAPE, PASTED_ROWS, TABLE_KEYS } from "./table-keys.ts";

/** A job's text with its history, cursor and scroll position. */
export type EditorSnapshot = { readonly state: EditorState; readonly mark: string; readonly scroll: number };

/** The editor of the job's text. */
export type Editor = {
  /** Opens another job's text with a new history and cursor. */
  readonly open: (text: string, readOnly: boolean) => void;
  readonly snapshot: () => EditorSnapshot;
  readonly restore: (snapshot: EditorSnapshot) => void;
  /** Replaces the text; keeps cursor and scrolling. What comes from `outside` is no step of the history. */
  readonly replace: (text: string, from: "outside" | "here") => void;
  readonly text: () => string;
  readonly undo: () => void;
  readonly mark: (problems: readonly Problem[]) => void;
  readonly fix: (problem: Problem) => void;
  readonly goTo: (at: EditorPosition) => void;
  readonly focus: () => void;
};

type EditorOptions = {
  readonly parent: HTMLElement;
  readonly nonce: string;
  readonly schema: () => Schema | undefined;
  readonly edited: () => void;
  readonly save: () => void;
  /** Receives the problems at the cursor after each update. */
  readonly at: (problems: readonly { readonly severity: string; readonly message: string }[]) => void;
};

const BOM = "\ufeff";

/** Creates the editor. It preserves a file's line separators and byte order mark. */
export function createEditor(options: EditorOptions): Editor {
  const { parent } = options;
  let mark = "";
  const extensions = createExtensions(options);
  const view = new EditorView({ parent, state: createState("", true, extensions) });
  keepCursorInView(view, parent);
  const open = (whole: string, readOnly: boolean) => {
    mark = whole.startsWith(BOM) ? BOM : "";
    view.setState(createState(whole.slice(mark.length), readOnly, extensions));
  };
  return {
    open,
    snapshot: () => ({ state: view.state, mark, scroll: view.scrollDOM.scrollTop }),
    restore: (kept) => {
      mark = kept.mark;
      view.setState(kept.state);
      requestAnimationFrame(() => {
        view.scrollDOM.scrollTop = kept.scroll;
      });
    },
    replace: (whole, from) => {
      const text = whole.slice(whole.startsWith(BOM) ? 1 : 0);
      if (lineSeparatorOf(text) !== view.state.lineBreak) return open(whole, view.state.readOnly);
      mark = whole.startsWith(BOM) ? BOM : "";
      const changes = lineChanges(view.state.doc, view.state.toText(text));
      const annotations =
        from === "outside"
          ? [Transaction.addToHistory.of(false), Transaction.remote.of(true)]
          : [isolateHistory.of("full")];
      if (changes.length > 0) view.dispatch({ changes, annotations });
    },
    text: () => mark + view.state.sliceDoc(),
    undo: () => void undo(view),
    mark: (problems) => {
      const marks = problems.flatMap((one) => diagnosticOf(one, view.state));
      view.dispatch(setDiagnostics(view.state, marks));
    },
    fix: ({ span, fix }) => {
      if (!span || !fix || view.state.readOnly) return;
      const [from, to] = [offsetOf(span.from, view.state), offsetOf(span.to, view.state)];
      if (view.state.sliceDoc(from, to) !== fix.before) return;
      const selection = { anchor: from + fix.after.length };
      view.dispatch({ changes: { from, to, insert: fix.after }, selection, userEvent: "input", scrollIntoView: true });
    },
    goTo: (place) => {
      const position = offsetOf(place, view.state);
      view.dispatch({ selection: { anchor: position }, effects: EditorView.scrollIntoView(position, { y: "center" }) });
      view.focus();
    },
    focus: () => view.focus(),
  };
}

const createState = (text: string, readOnly: boolean, extensions: Extension) =>
  EditorState.create({
    doc: text,
    extensions: [
      extensions,
      EditorState.lineSeparator.of(lineSeparatorOf(text)),
      PASTED_ROWS,
      EditorView.clipboardInputFilter.of((pasted, { lineBreak }) => pasted.replace(/\r\n?|\n/g, lineBreak)),
      EditorState.readOnly.of(readOnly),
    ],
  });

function createExtensions({ nonce, schema, edited, save, at }: EditorOptions): Extension {
  const runSave = () => {
    save();
    return true;
  };
  return [
    EditorView.cspNonce.of(nonce),
    LEAVE_BY_ESCAPE,
    keymap.of([
      { key: "Mod-s", run: runSave, preventDefault: true },
      { key: "Tab", run: acceptFirstCompletion },
      ...helpKeys(schema),
      ...lintKeymap,
      ...searchKeymap,
      ...historyKeymap,
      ...defaultKeymap,
      ...TABLE_KEYS,
    ]),
    lineNumbers(),
    history(),
    search({ top: true }),
    drawSelection(),
    highlightSpecialChars(),
    highlightActiveLine(),
    indentOnInput(),
    indentUnit.of("  "),
    bracketMatching(),
    EditorView.lineWrapping,
    yaml(),
    completion(schema),
    keyHelp(schema),
    syntaxHighlighting(COLOURS),
    THEME,
    EditorView.contentAttributes.of({ "aria-label": "Job text", spellcheck: "false" }),
    EditorView.updateListener.of((update) => {
      if (update.docChanged) edited();
      at(problemsAt(update.state));
    }),
  ];
}

/** Scrolls the cursor back into view when the growing list of problems shrinks the editor. */
function keepCursorInView(view: EditorView, pane: HTMLElement): void {
  let height = pane.clientHeight;
  new ResizeObserver(() => {
    const before = height;
    height = pane.clientHeight;
    if (!view.hasFocus || height >= before) return;
    const cursor = view.state.selection.main.head;
    const { top } = view.scrollDOM.getBoundingClientRect();
    const place = view.coordsAtPos(cursor);
    if (place && place.top >= top && place.bottom <= top + before)
      view.dispatch({ effects: EditorView.scrollIntoView(cursor) });
  }).observe(pane);
}

const lineSeparatorOf = (text: string) => (text.includes("\r\n") && !/(^|[^\r])\n/.test(text) ? "\r\n" : "\n");

/** Problems that touch the cursor; else, on the cursor's line. */
function problemsAt(state: EditorState): readonly { readonly severity: string; readonly message: string }[] {
  const cursor = state.selection.main.head;
  const line = state.doc.lineAt(cursor);
  const touching: Diagnostic[] = [];
  const onLine: Diagnostic[] = [];
  forEachDiagnostic(state, (one, from, to) => {
    if (from <= cursor && to >= cursor) touching.push(one);
    if (from <= line.to && to >= line.from) onLine.push(one);
  });
  return touching.length > 0 ? touching : onLine;
}
