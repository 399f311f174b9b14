import {
  acceptCompletion,
  autocompletion,
  type Completion,
  type CompletionContext,
  type CompletionResult,
  completionStatus,
  selectedCompletionIndex,
  setSelectedCompletion,
  snippet,
} from "@codemirror/autocomplete";
import type { EditorView } from "@codemirror/view";
import { completionsAt, type Schema } from "./completions.ts";
import { placeAtEnd } from "./place-in-yaml.ts";

/** Completion of keys and values, in the order of the schema, which is that of a job file. */
export const completion = (schema: () => Schema | undefined) =>
  autocompletion({ override: [(context) => complete(context, schema())], icons: false, selectOnOpen: false });

/** Accepts the selected completion, else the first; false without completions. */
export function acceptFirstCompletion(view: EditorView): boolean {
  if (completionStatus(view.state) !== "active") return false;
  if (selectedCompletionIndex(view.state) === null) view.dispatch({ effects: setSelectedCompletion(0) });
  return acceptCompletion(view);
}

const STAGE: Completion = {
  label: "stage",
  detail: "name, sizes and a readings table",
  info: "A stage with the keys that most have, to be typed over with Tab.",
  sortText: "000",
  apply: (view, chosen, from, to) => {
    const line = view.state.doc.lineAt(from);
    // Further keys stand under the first, beyond the dash before it.
    const indent = " ".repeat(from - line.from - /^ */.exec(line.text)![0].length);
    snippet(STAGE_LINES.join(`\n${indent}`))(view, chosen, from, to);
  },
};

const STAGE_LINES = [
  "name: #{1:Finished}",
  "intake:  { valve: #{2}, stem: #{3}, throat: #{4} }",
  "exhaust: { valve: #{5}, stem: #{6}, throat: #{7} }",
  "flow: |",
  "  lift    intake  exhaust",
  "  #{8}",
];

function complete(context: CompletionContext, schema: Schema | undefined): CompletionResult | null {
  if (!schema) return null;
  const place = placeAtEnd(context.state.doc.sliceString(0, context.pos, "\n"));
  if (!place || (place.word === "" && !context.explicit)) return null;
  const offered = completionsAt(place, schema).map(
    ({ label, kind, about, example }, index): Completion => ({
      label,
      sortText: String(index + 1).padStart(3, "0"),
      ...(kind === "key" ? { apply: `${label}: ` } : {}),
      ...(kind === "example"
        ? { detail: "for example" }
        : example === undefined
          ? {}
          : { detail: `such as ${example}` }),
      ...(about === undefined ? {} : { info: about }),
      boost: kind === "example" ? -1 : 0,
    }),
  );
  const isNewStage = place.path.join(" ") === "stages []" && place.kind === "key" && place.beside.size === 0;
  const options = isNewStage ? [STAGE, ...offered] : offered;
  return options.length === 0 ? null : { from: context.pos - place.word.length, options, validFor: /^[\w -]*$/ };
}
