import {
  acceptCompletion,
  autocompletion,
  type CompletionContext,
  type CompletionResult,
  completionStatus,
  selectedCompletionIndex,
  setSelectedCompletion,
} from "@codemirror/autocomplete";
import { defaultKeymap, history, historyKeymap } from "@codemirror/commands";
import { yaml } from "@codemirror/lang-yaml";
import { bracketMatching, HighlightStyle, indentOnInput, indentUnit, syntaxHighlighting } from "@codemirror/language";
import { type Diagnostic, forEachDiagnostic, lintKeymap, setDiagnostics } from "@codemirror/lint";
import { EditorState, type Extension } from "@codemirror/state";
import {
  drawSelection,
  EditorView,
  highlightActiveLine,
  highlightSpecialChars,
  keymap,
  lineNumbers,
} from "@codemirror/view";
import { tags } from "@lezer/highlight";
import type { EditorPosition, Problem } from "../messages.ts";
import { completionsAt, type Schema } from "./completions.ts";
import { placeAtEnd } from "./place-in-yaml.ts";

/** The editor of the job's text. */
type Editor = {
  /** Opens another job's text with a new history and cursor. */
  readonly open: (text: string, readOnly: boolean) => void;
  /** Replaces the text by a version changed elsewhere; keeps cursor, scrolling and history. */
  readonly replace: (text: string) => void;
  readonly text: () => string;
  readonly mark: (problems: readonly Problem[]) => void;
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
  const stateOf = (text: string, readOnly: boolean) =>
    EditorState.create({
      doc: text,
      extensions: [
        extensions,
        EditorState.lineSeparator.of(lineSeparatorOf(text)),
        EditorView.clipboardInputFilter.of((pasted, { lineBreak }) => pasted.replace(/\r\n?|\n/g, lineBreak)),
        EditorState.readOnly.of(readOnly),
      ],
    });
  const view = new EditorView({ parent, state: stateOf("", true) });
  keepCursorInView(view, parent);
  const open = (whole: string, readOnly: boolean) => {
    mark = whole.startsWith(BOM) ? BOM : "";
    view.setState(stateOf(whole.slice(mark.length), readOnly));
  };
  return {
    open,
    replace: (whole) => {
      const text = whole.slice(whole.startsWith(BOM) ? 1 : 0);
      const before = view.state.sliceDoc();
      if (lineSeparatorOf(text) !== view.state.lineBreak) return open(whole, view.state.readOnly);
      mark = whole.startsWith(BOM) ? BOM : "";
      const next = view.state.toText(text);
      const old = view.state.doc;
      if (before === text) return;
      const [from, end, last] = changedRange(old.toString(), next.toString());
      view.dispatch({ changes: { from, to: end, insert: next.slice(from, last) } });
    },
    text: () => mark + view.state.sliceDoc(),
    mark: (problems) => {
      const marks = problems.flatMap((one) => diagnosticOf(one, view.state));
      view.dispatch(setDiagnostics(view.state, marks));
    },
    goTo: (place) => {
      const position = offsetOf(place, view.state);
      view.dispatch({ selection: { anchor: position }, effects: EditorView.scrollIntoView(position, { y: "center" }) });
      view.focus();
    },
    focus: () => view.focus(),
  };
}

function createExtensions({ nonce, schema, edited, save, at }: EditorOptions): Extension {
  const runSave = () => {
    save();
    return true;
  };
  return [
    EditorView.cspNonce.of(nonce),
    keymap.of([
      { key: "Mod-s", run: runSave, preventDefault: true },
      { key: "Tab", run: acceptFirstCompletion },
      ...lintKeymap,
      ...historyKeymap,
      ...defaultKeymap,
    ]),
    lineNumbers(),
    history(),
    drawSelection(),
    highlightSpecialChars(),
    highlightActiveLine(),
    indentOnInput(),
    indentUnit.of("  "),
    bracketMatching(),
    EditorView.lineWrapping,
    yaml(),
    autocompletion({ override: [(context) => complete(context, schema())], icons: false, selectOnOpen: false }),
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

/** Start of the differing range of two texts, and its end in each. */
function changedRange(before: string, after: string): readonly [from: number, endBefore: number, endAfter: number] {
  const most = Math.min(before.length, after.length);
  let from = 0;
  while (from < most && before[from] === after[from]) from++;
  let same = 0;
  while (same < most - from && before.at(-1 - same) === after.at(-1 - same)) same++;
  return [from, before.length - same, after.length - same];
}

function offsetOf({ line, ch }: EditorPosition, { doc }: EditorState): number {
  const found = doc.line(Math.min(Math.max(1, line), doc.lines));
  return Math.min(found.from + ch, found.to);
}

function diagnosticOf({ span, severity, message, note, hint }: Problem, state: EditorState): readonly Diagnostic[] {
  if (!span) return [];
  const from = offsetOf(span.from, state);
  const to = Math.max(from, offsetOf(span.to, state));
  const words = [message, note, hint && `hint: ${hint}`].filter(Boolean).join("\n");
  return [{ from, to, severity, message: words }];
}

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

/** Accepts the selected completion, else the first; without completions, Tab moves the focus. */
function acceptFirstCompletion(view: EditorView): boolean {
  if (completionStatus(view.state) !== "active") return false;
  if (selectedCompletionIndex(view.state) === null) view.dispatch({ effects: setSelectedCompletion(0) });
  return acceptCompletion(view);
}

function complete(context: CompletionContext, schema: Schema | undefined): CompletionResult | null {
  if (!schema) return null;
  const place = placeAtEnd(context.state.doc.sliceString(0, context.pos, "\n"));
  if (!place || (place.word === "" && !context.explicit)) return null;
  const options = completionsAt(place, schema).map(({ label, kind, about, example }) => ({
    label,
    ...(kind === "key" ? { apply: `${label}: ` } : {}),
    ...(kind === "example" ? { detail: "for example" } : example === undefined ? {} : { detail: `such as ${example}` }),
    ...(about === undefined ? {} : { info: about }),
    boost: kind === "example" ? -1 : 0,
  }));
  return options.length === 0 ? null : { from: context.pos - place.word.length, options, validFor: /^[\w -]*$/ };
}

const COLOURS = HighlightStyle.define([
  { tag: tags.propertyName, color: "#1f4e5f", fontWeight: "600" },
  { tag: tags.comment, color: "#51575d", fontStyle: "italic" },
  { tag: [tags.separator, tags.squareBracket, tags.brace, tags.punctuation], color: "#51575d" },
]);

/** Underlines as text decoration, as the content security policy forbids CodeMirror's data images. */
const underline = (color: string) => ({
  backgroundImage: "none",
  textDecoration: `underline wavy ${color}`,
  textDecorationSkipInk: "none",
  textUnderlineOffset: "3px",
});
const THEME = EditorView.theme({
  "&": { height: "100%", fontSize: "14px", backgroundColor: "#fff", color: "#1b1f23" },
  "&.cm-focused": { outline: "3px solid #1f4e5f", outlineOffset: "-3px" },
  ".cm-gutters": { backgroundColor: "#fff", color: "#51575d", borderRight: "1px solid #dde1e4" },
  ".cm-activeLine, .cm-activeLineGutter": { backgroundColor: "#f1f3f4" },
  ".cm-lintRange-error": underline("#9b1c1c"),
  ".cm-lintRange-warning": underline("#b06f00"),
  ".cm-lintRange-active": { backgroundColor: "#fbeaea" },
  ".cm-lintPoint::after": { borderBottomColor: "#9b1c1c" },
  ".cm-diagnostic": {
    fontFamily: '"Plex", sans-serif',
    padding: "6px 10px",
    whiteSpace: "pre-wrap",
    maxWidth: "520px",
  },
  ".cm-diagnostic-error": { borderLeftColor: "#9b1c1c" },
  ".cm-diagnostic-warning": { borderLeftColor: "#7a4b00" },
  ".cm-tooltip": { backgroundColor: "#fff", border: "1px solid #878e95" },
  ".cm-tooltip-autocomplete ul li[aria-selected]": { backgroundColor: "#1f4e5f", color: "#fff" },
  ".cm-tooltip-autocomplete ul li[aria-selected] .cm-completionDetail": { color: "#fff" },
  ".cm-completionDetail": { fontFamily: '"Plex", sans-serif', fontStyle: "normal", color: "#51575d" },
  ".cm-completionInfo": { fontFamily: '"Plex", sans-serif', padding: "6px 10px" },
});
