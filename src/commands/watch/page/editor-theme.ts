import { HighlightStyle } from "@codemirror/language";
import { EditorView } from "@codemirror/view";
import { tags } from "@lezer/highlight";

/** Colours are those of the page, which follow the scheme of the browser. */
export const COLOURS = HighlightStyle.define([
  { tag: tags.propertyName, color: "var(--accent)", fontWeight: "600" },
  { tag: tags.comment, color: "var(--quiet)", fontStyle: "italic" },
  { tag: [tags.separator, tags.squareBracket, tags.brace, tags.punctuation], color: "var(--quiet)" },
]);

/** Underlines as text decoration, as the content security policy forbids CodeMirror's data images. */
const underline = (color: string) => ({
  backgroundImage: "none",
  textDecoration: `underline wavy ${color}`,
  textDecorationSkipInk: "none",
  textUnderlineOffset: "3px",
});
const SANS = '"Plex", sans-serif';

export const THEME = EditorView.theme({
  "&": { height: "100%", fontSize: "14px", backgroundColor: "var(--card)", color: "var(--ink)" },
  "&.cm-focused": { outline: "3px solid var(--accent)", outlineOffset: "-3px" },
  ".cm-content": { caretColor: "var(--ink)" },
  ".cm-cursor, .cm-dropCursor": { borderLeftColor: "var(--ink)" },
  "& > .cm-scroller > .cm-selectionLayer .cm-selectionBackground, &.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground":
    { backgroundColor: "var(--selected)" },
  ".cm-gutters": { backgroundColor: "var(--card)", color: "var(--quiet)", borderRight: "1px solid var(--grid)" },
  ".cm-activeLine, .cm-activeLineGutter": { backgroundColor: "var(--row)" },
  "&.cm-focused .cm-matchingBracket": { backgroundColor: "var(--selected)" },
  ".cm-searchMatch": { backgroundColor: "var(--found)", color: "var(--ink)" },
  ".cm-searchMatch-selected": { outline: "2px solid var(--accent)" },
  ".cm-lintRange-error": underline("var(--error)"),
  ".cm-lintRange-warning": underline("var(--warning)"),
  ".cm-lintRange-active": { backgroundColor: "var(--row)" },
  ".cm-lintPoint::after": { borderBottomColor: "var(--error)" },
  ".cm-diagnostic": { fontFamily: SANS, padding: "6px 10px", whiteSpace: "pre-wrap", maxWidth: "520px" },
  ".cm-diagnostic-error": { borderLeftColor: "var(--error)" },
  ".cm-diagnostic-warning": { borderLeftColor: "var(--warning)" },
  ".cm-diagnosticAction": {
    font: "inherit",
    minHeight: "44px",
    backgroundColor: "var(--accent)",
    color: "var(--on-accent)",
  },
  ".cm-tooltip": { backgroundColor: "var(--card)", color: "var(--ink)", border: "1px solid var(--rule)" },
  ".cm-tooltip.cm-tooltip-autocomplete > ul": { maxHeight: "20em" },
  ".cm-tooltip-autocomplete ul li": { minHeight: "44px", display: "flex", alignItems: "center", gap: "8px" },
  ".cm-tooltip-autocomplete ul li[aria-selected]": { backgroundColor: "var(--accent)", color: "var(--on-accent)" },
  ".cm-tooltip-autocomplete ul li[aria-selected] .cm-completionDetail": { color: "var(--on-accent)" },
  ".cm-completionDetail": { fontFamily: SANS, fontStyle: "normal", color: "var(--quiet)" },
  ".cm-completionInfo, .cm-key-help": { fontFamily: SANS, padding: "6px 10px", maxWidth: "420px" },
  ".cm-key-help p": { margin: "0" },
  ".cm-panels, .cm-panel.cm-search": {
    backgroundColor: "var(--desk)",
    color: "var(--ink)",
    borderColor: "var(--grid)",
  },
  ".cm-panel.cm-search": { fontFamily: SANS, padding: "6px 56px 6px 8px" },
  ".cm-panel.cm-search label": { fontSize: "14px", display: "inline-flex", alignItems: "center", minHeight: "44px" },
  ".cm-panel.cm-search input[type=checkbox]": { width: "24px", height: "24px" },
  ".cm-panel .cm-textfield": {
    font: "inherit",
    minHeight: "44px",
    backgroundColor: "var(--card)",
    color: "var(--ink)",
    border: "1px solid var(--rule)",
  },
  ".cm-panel .cm-button": { backgroundImage: "none", minHeight: "44px", fontSize: "14px" },
  ".cm-panel.cm-search [name=close]": { width: "44px", height: "44px", padding: "0", fontSize: "20px" },
});
