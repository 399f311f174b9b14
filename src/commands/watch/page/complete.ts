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
  apply: snippet(
    "name: #{Finished}\nintake:  { valve: #{1}, stem: #{2}, throat: #{3} }\nexhaust: { valve: #{4}, stem: #{5}, throat: #{6} }\nflow: |\n\tlift    intake  exhaust\n\t#{7}",
  ),
};

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
