import type { YAMLError } from "yaml";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { findOpenQuote, lineEnd, lineStart, openBracket, restOfLine, wholeLine } from "./error-places.ts";
import { quoted } from "./quoted.ts";

/** A description of a syntax error; `start` and `end` where the parser's own position misleads. */
type Description = {
  readonly code: Diagnostic["code"];
  readonly message: string;
  readonly hint: string;
  readonly start?: number;
  readonly end?: number;
};

function describeUnclosed(text: string, at: number): Description {
  const found = openBracket(text, at);
  if (!found) return { code: "source/bracket", message: "a bracket is not closed", hint: "close it on its line" };
  if (found.swallowed >= 0) {
    return {
      code: "source/lost-text",
      message: "everything after `#` is a comment, and the closing bracket with it",
      hint: "put the text with the # in quotes",
      ...restOfLine(text, found.swallowed),
    };
  }
  return {
    code: "source/bracket",
    message: `\`${text[found.start]}\` is not closed`,
    hint: `write the missing \`${found.closing}\``,
    start: found.start,
    end: found.start + 1,
  };
}

const ALIGN = "begin keys that belong together in the same column";

function describeNoKey(text: string, at: number): Description {
  const place = wholeLine(text, at);
  const words = text.slice(place.start, place.end);
  const colon = /^([\w ]+):(\S.*)$/.exec(words);
  if (colon) {
    return {
      code: "source/blank-after-colon",
      message: "a blank is missing after the colon",
      hint: `write ${colon[1]}: ${colon[2]}`,
      ...place,
    };
  }
  return {
    code: "source/not-a-key",
    message: "this line is neither `key: value` nor part of a text above it",
    hint: "write it as key: value; for a text of several lines write `|` after its key and indent the lines",
    ...place,
  };
}

type Describe = (error: YAMLError, text: string) => Description;

const COMMA: Description = {
  code: "source/comma",
  message: "inside brackets a comma is missing between two values",
  hint: "write a comma between them",
};

/** The offending text, at least one character of it. */
const wordAt = ({ pos: [start, end] }: YAMLError, text: string) => text.slice(start, Math.max(end, start + 1));

/** The parser's error codes in plain words. */
const DESCRIBED: Partial<Record<YAMLError["code"], Describe>> = {
  TAB_AS_INDENT: () => ({ code: "source/tab", message: "a tab is used to indent", hint: "indent with blanks" }),
  BAD_SCALAR_START: (error, text) => {
    const [start] = error.pos;
    const first = wordAt(error, text)[0];
    return {
      code: "source/quotes",
      message: `a text cannot begin with ${first === "`" ? "a backtick" : `\`${first}\``} unless it is in quotes`,
      hint: `put it in quotes: "${text.slice(start, restOfLine(text, start).end)}"`,
    };
  },
  BAD_DQ_ESCAPE: ({ pos: [start] }) => ({
    code: "source/escape",
    message: "a backslash inside double quotes starts a code, and this one is unknown",
    hint: "use single quotes, or write the backslash twice",
    start,
    end: start + 2,
  }),
  KEY_OVER_1024_CHARS: ({ pos: [start] }, text) => ({
    code: "source/not-a-key",
    message: "this key is longer than 1024 characters",
    hint: "put a text in quotes",
    ...restOfLine(text, start),
  }),
  BLOCK_AS_IMPLICIT_KEY: describeBlockAsKey,
  BLOCK_IN_FLOW: ({ pos: [start] }, text) =>
    describeSecondColon(text, start) ?? { ...COMMA, ...restOfLine(text, start) },
  BAD_INDENT: ({ pos: [start], message }, text) =>
    /Flow/.test(message)
      ? describeUnclosed(text, start)
      : {
          code: "source/indent",
          message: "this line is indented unlike the lines it belongs to",
          hint: ALIGN,
          ...wholeLine(text, start),
        },
  MULTILINE_IMPLICIT_KEY: ({ pos: [start] }, text) => describeNoKey(text, start),
  MISSING_CHAR: describeMissingCharacter,
  UNEXPECTED_TOKEN: describeUnexpectedToken,
};

const UNDESCRIBED: Description = {
  code: "source/syntax",
  message: "the structure of the file breaks here",
  hint: "check quotes, brackets and indents here and on the line above",
};

const describe: Describe = (error, text) => DESCRIBED[error.code]?.(error, text) ?? UNDESCRIBED;

function describeBlockAsKey({ pos: [start] }: YAMLError, text: string): Description {
  if (/^\?\s/.test(text.slice(start)))
    return {
      code: "source/quotes",
      message: "a `?` alone must be in quotes",
      hint: 'write "?", or leave the value empty',
    };
  // `a: 1` with a deeper `b: 2` below it raises the same error.
  const line = text.slice(start, lineEnd(text, start));
  const description: Description = line.includes(":")
    ? {
        code: "source/two-colons",
        message: "a second `key: value` begins on the same line: a text with a colon wants quotes",
        hint: `write ${quoted(line.trim())}`,
      }
    : {
        code: "source/indent",
        message: "the line below is indented under a key that has a value already",
        hint: ALIGN,
      };
  return { ...description, ...restOfLine(text, start) };
}

/** A text with a colon in brackets, `{ name: Plain four: alloy }`: the parser misses a comma at its second colon. */
function describeSecondColon(text: string, at: number): Description | undefined {
  const from = Math.max(text.lastIndexOf("{", at), text.lastIndexOf(",", at), lineStart(text, at) - 1) + 1;
  const [, lead, words] =
    /^(\s*[A-Za-z_]\w*:\s+)(\p{L}[^,{}[\]"':]*: [^,{}[\]"']*[^\s,{}[\]"'])/u.exec(
      text.slice(from, lineEnd(text, at)),
    ) ?? [];
  if (lead === undefined || words === undefined) return undefined;
  const start = from + lead.length;
  return {
    code: "source/two-colons",
    message: "a second `key: value` begins here: a comma is missing, or a text with a colon wants quotes",
    hint: `write ${quoted(words)}`,
    start,
    end: start + words.length,
  };
}

function describeMissingCharacter({ pos: [start], message }: YAMLError, text: string): Description {
  const quote = /closing (["'])/.exec(message)?.[1];
  if (quote) {
    return {
      code: "source/quotes",
      message: `the text that begins with \`${quote}\` has no closing \`${quote}\``,
      hint: `write the missing ${quote}`,
      ...findOpenQuote(text, start, quote),
    };
  }
  if (/Flow|flow/.test(message) && /end with|closing/.test(message)) return describeUnclosed(text, start);
  if (/comma|,/.test(message)) return describeSecondColon(text, start) ?? COMMA;
  if (/space|separat/i.test(message))
    return { code: "source/blank", message: "a blank is missing here", hint: "leave a blank between the two" };
  return describeNoKey(text, start);
}

function describeUnexpectedToken(error: YAMLError, text: string): Description {
  const [start] = error.pos;
  const word = wordAt(error, text);
  if (word === "," || error.message.includes("Unexpected ,")) {
    return {
      code: "source/comma",
      message: "there is nothing before this comma",
      hint: "delete the comma, or write the missing value",
    };
  }
  if (/^[\]}]/.test(word)) {
    return {
      code: "source/bracket",
      message: `\`${word[0]}\` closes a bracket that was never opened`,
      hint: "delete it, or put the text in quotes",
    };
  }
  return { ...describeMisplacedText(error.message, text[start - 1]), ...restOfLine(text, start) };
}

/** Describes a token that the parser did not expect; `before` is the character before it. */
function describeMisplacedText(message: string, before: string | undefined): Description {
  if (/block-seq-ind/.test(message)) {
    return {
      code: "source/list",
      message: "a list cannot begin on the line of its key",
      hint: "put `- ` on the next line, or write the list in brackets: [ … ]",
    };
  }
  if (/Not a YAML token/.test(message)) {
    return {
      code: "source/block-text",
      message: "text stands on the line of `|` or `>`",
      hint: "begin the text on the next line, indented",
    };
  }
  return {
    code: "source/quotes",
    message: "text follows after the end of the value",
    hint:
      before === "'"
        ? "for an apostrophe inside single quotes use double quotes around the whole"
        : "put the whole value in one pair of quotes",
  };
}

/** Upper limit of reported errors; locating one may scan the whole text. */
const MOST_FAULTS = 50;

/** Errors of the parser that other checks report more clearly. */
const REPORTED_ELSEWHERE = new Set([
  "ALIAS_PROPS",
  "BAD_ALIAS",
  "MULTIPLE_ANCHORS",
  "MULTIPLE_TAGS",
  "TAG_RESOLVE_FAILED",
  "BAD_DIRECTIVE",
  "BAD_COLLECTION_TYPE",
  "BAD_PROP_ORDER",
  "MULTIPLE_DOCS",
]);

/** The parser's errors and warnings in plain words, one a line of the file: later ones follow from the first. */
export function syntaxFaults(file: string, text: string, errors: readonly YAMLError[]): readonly Diagnostic[] {
  const faults: Diagnostic[] = [];
  const lines = new Set<number>();
  let broken = false;
  for (const error of errors.toSorted((a, b) => a.pos[0] - b.pos[0])) {
    if (REPORTED_ELSEWHERE.has(error.code)) continue;
    if (faults.length === MOST_FAULTS) break;
    // After such an error the parser reports every word to the end of the file.
    if (/in YAML stream/.test(error.message)) {
      if (broken) continue;
      broken = true;
    }
    const [from, to] = error.pos;
    const { code, message, hint, start = from, end = Math.max(to, from + 1) } = describe(error, text);
    // The line on which the parser noticed the error counts as reported, too.
    const taken = [lineStart(text, start), lineStart(text, from)];
    if (taken.some((line) => lines.has(line))) continue;
    for (const line of taken) lines.add(line);
    faults.push({ severity: "error", code, message, at: { file, start, end }, hint });
  }
  return faults;
}
