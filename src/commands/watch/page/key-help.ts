import { syntaxTree } from "@codemirror/language";
import { type EditorState, StateEffect, StateField } from "@codemirror/state";
import { type EditorView, hoverTooltip, type KeyBinding, showTooltip, type Tooltip } from "@codemirror/view";
import { type Schema, schemasAt } from "./completions.ts";
import { createElement } from "./element.ts";
import { keyAt } from "./place-in-yaml.ts";

/** What a key means, beside the pointer or, on F1, at the cursor. */
export const keyHelp = (schema: () => Schema | undefined) => [
  hoverTooltip((view, position) => helpAt(view.state, position, schema()) ?? null),
  SHOWN,
];

export const helpKeys = (schema: () => Schema | undefined): readonly KeyBinding[] => [
  {
    key: "F1",
    run: (view: EditorView) => {
      const shown = helpAt(view.state, view.state.selection.main.head, schema());
      view.dispatch({ effects: SHOW.of(shown ?? null) });
      return true;
    },
  },
  {
    key: "Escape",
    run: (view: EditorView) => {
      if (view.state.field(SHOWN, false) === null) return false;
      view.dispatch({ effects: SHOW.of(null) });
      return true;
    },
  },
];

const SHOW = StateEffect.define<Tooltip | null>();
/** The help asked for by F1, until the text or the cursor changes. */
const SHOWN = StateField.define<Tooltip | null>({
  create: () => null,
  update: (shown, { docChanged, selection, effects }) =>
    effects.reduce<Tooltip | null>(
      (now, effect) => (effect.is(SHOW) ? effect.value : now),
      docChanged || selection ? null : shown,
    ),
  provide: (field) => showTooltip.from(field),
});

function helpAt(state: EditorState, position: number, schema: Schema | undefined): Tooltip | undefined {
  const key = schema && keyAt(syntaxTree(state), position, (from, to) => state.sliceDoc(from, to));
  if (!key) return undefined;
  const found = schemasAt(key.path, schema);
  const about = found.find(({ description }) => description !== undefined)?.description;
  if (about === undefined) return undefined;
  const example = found.flatMap(({ examples = [] }) => examples)[0];
  const inside = [createElement("p", { text: about })];
  if (typeof example === "string" || typeof example === "number")
    inside.push(createElement("p", { text: `Such as ${example}` }));
  return {
    pos: key.from,
    end: key.to,
    above: true,
    create: () => ({ dom: createElement("div", { className: "cm-key-help" }, ...inside) }),
  };
}
