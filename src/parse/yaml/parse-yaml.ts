import { Composer, type CST, type Document, type YAMLError } from "yaml";
import { sortDiagnostics } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { escapedInvisibleCharacters, invisibleCharacters } from "../invisible-characters.ts";
import { textFaults } from "../limits.ts";
import { straightenQuotes } from "./curly-quotes.ts";
import { droppedText } from "./dropped-text.ts";
import { findLineFault } from "./find-line-fault.ts";
import { locate } from "./locate.ts";
import { removeMisindentedTables } from "./misindented-tables.ts";
import { refusedFeatures } from "./refused-features.ts";
import type { SourceDocument } from "./source-document.ts";
import { syntaxFaults } from "./syntax-errors.ts";
import { depthFaults, flattenTokens, lexYaml, parseTokens, shapeFaults } from "./tokens.ts";

/** The result of parsing; without a document the diagnostics hold at least one error of syntax. */
type ReadYaml = { readonly document: SourceDocument | undefined; readonly diagnostics: readonly Diagnostic[] };

// Failsafe: every scalar is text. `locate` compares keys in one pass; the check of `yaml` takes quadratic time.
const AS_TEXT = { schema: "failsafe", uniqueKeys: false, prettyErrors: false, logLevel: "silent" } as const;

const compose = (tokens: readonly CST.Token[]) => [...new Composer(AS_TEXT).compose(tokens)] as Document.Parsed[];

const problemsOf = (documents: readonly Document.Parsed[]): readonly YAMLError[] =>
  documents.flatMap(({ errors, warnings }) => [...errors, ...warnings]);

/** Parses a YAML text into a document with source positions. Pure: `file` is only its name in messages. */
export function parseYaml(file: string, text: string): ReadYaml {
  const unreadable = textFaults(file, text);
  if (unreadable.length > 0) return { document: undefined, diagnostics: unreadable };
  const curly = CURLY.test(text) ? straightenedQuotes(file, text) : undefined;
  if (curly === undefined || curly.faults.length === 0) return parseText(file, text);
  const { document, diagnostics } = parseText(file, curly.text);
  return { document, diagnostics: sortDiagnostics([...curly.faults, ...diagnostics]) };
}

function straightenedQuotes(file: string, text: string) {
  const lexemes = lexYaml(text);
  return shapeFaults(file, lexemes).length > 0
    ? undefined
    : straightenQuotes(file, text, flattenTokens(parseTokens(lexemes)));
}

const CURLY = /[\u2018\u201a-\u201f]/;

function parseText(file: string, text: string): ReadYaml {
  const refused = (diagnostics: readonly Diagnostic[]) => ({ document: undefined, diagnostics });
  const lexemes = lexYaml(text);
  const shape = shapeFaults(file, lexemes);
  if (shape.length > 0) return refused(shape);
  const tree = parseTokens(lexemes);
  const tokens = flattenTokens(tree);
  const deep = depthFaults(file, tokens);
  if (deep.length > 0) return refused(deep);

  const documents = compose(tree);
  const syntax = [...structureErrors(file, text, documents)];
  const reported = new Set(syntax.map(({ at }) => at?.start));
  const lost = droppedText(file, text, tokens).filter(({ at }) => !reported.has(at?.start));
  const unseen = [...invisibleCharacters(file, text), ...escapedInvisibleCharacters(file, tokens)];
  const remarks = [...refusedFeatures(file, tokens), ...unseen, ...lost];
  if (syntax.length > 0) return refused(sortDiagnostics([...syntax, ...remarks]));

  const { document, faults } = locate(file, text, documents[0]);
  return { document, diagnostics: sortDiagnostics([...remarks, ...faults]) };
}

/** Errors of syntax: misindented tables first, then those of the text without them. */
function structureErrors(file: string, text: string, documents: readonly Document.Parsed[]): readonly Diagnostic[] {
  const errors = problemsOf(documents);
  if (errors.length === 0) return documents[1] ? [severalDocuments(file, text, documents[1])] : [];
  const tables = removeMisindentedTables(file, text);
  const left = tables.faults.length === 0 ? errors : problemsOf(compose(parseTokens(lexYaml(tables.text))));
  const count = (other: string) => problemsOf(compose(parseTokens(lexYaml(other)))).length;
  const fault = findLineFault(file, tables.text, left, count);
  return [...tables.faults, ...(fault ? [fault] : syntaxFaults(file, tables.text, left))];
}

function severalDocuments(file: string, text: string, second: Document.Parsed): Diagnostic {
  const marker = text.lastIndexOf("---", second.contents?.range?.[0] ?? second.range[0]);
  const start = marker >= 0 ? marker : second.range[0];
  return {
    severity: "error",
    code: "source/several-documents",
    message: "a second document begins here",
    at: { file, start, end: start + 3 },
    hint: "one file holds one job: delete the `---` line, or put what follows into a file of its own",
  };
}
