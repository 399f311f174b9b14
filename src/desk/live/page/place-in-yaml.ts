/** Where the cursor stands in a job: the keys that lead there ("[]" for an entry of a list), and what is being typed. */
export type PlaceInYaml = {
  readonly path: readonly string[];
  readonly kind: "key" | "value";
  readonly word: string;
  /** Keys that stand already beside the one being typed, before the cursor. */
  readonly beside: ReadonlySet<string>;
};

type Frame = { readonly indent: number; readonly step: string };

const KEY = /^("[^"]*"|'[^']*'|[^\s:#,[\]{}|>'"%@`&*!-][^:#]*?)\s*:(?=\s|$)/;

/**
 * The place at the end of a text, found by indents and brackets alone: while somebody types, the text is seldom whole YAML.
 * Nothing inside a table or other block of text, a comment or quotes.
 */
export function placeAtEnd(before: string): PlaceInYaml | undefined {
  const frames: Frame[] = [];
  const used = new Map<string, Set<string>>();
  let block: number | undefined;
  let flow = "";
  const lines = before.split(/\r?\n/);
  for (const [index, line] of lines.entries()) {
    const last = index === lines.length - 1;
    const indent = /^ */.exec(line)![0].length;
    if (block !== undefined) {
      if (line.trim() === "" ? !last : indent > block) {
        if (last) return undefined;
        continue;
      }
      if (line.trim() === "" && indent > block) return undefined;
      block = undefined;
    }
    if (flow !== "") {
      flow += `\n${line}`;
      if (last) return inFlow(flow, pathOf(frames));
      if (depthOf(flow) <= 0) flow = "";
      continue;
    }
    const { text, comment } = withoutComment(line);
    if (last && comment) return undefined;
    if (text.trim() === "" && !last) continue;

    let at = indent;
    let rest = text.slice(at);
    for (let dash = /^-(\s+|$)/.exec(rest); dash; dash = /^-(\s+|$)/.exec(rest)) {
      // A list may stand under its key without a deeper indent.
      leave(frames, (frame) => frame.indent > at || (frame.indent === at && frame.step === "[]"));
      frames.push({ indent: at, step: "[]" });
      used.delete(JSON.stringify(pathOf(frames)));
      at += dash[0].length;
      rest = rest.slice(dash[0].length);
    }
    const key = KEY.exec(rest);
    if (!key) {
      if (!last) continue;
      leave(frames, (frame) => frame.indent >= at);
      const path = pathOf(frames);
      if (/^[[{]/.test(rest)) return inFlow(rest, path);
      if (/^["']/.test(rest)) return undefined;
      return { path, kind: "key", word: rest, beside: used.get(JSON.stringify(path)) ?? new Set() };
    }
    leave(frames, (frame) => frame.indent >= at);
    const parent = JSON.stringify(pathOf(frames));
    const name = key[1]!.replace(/^["']|["']$/g, "");
    used.set(parent, (used.get(parent) ?? new Set()).add(name));
    frames.push({ indent: at, step: name });
    used.delete(JSON.stringify(pathOf(frames)));
    const value = rest.slice(key[0].length).trimStart();
    if (/^[|>]/.test(value)) block = at;
    else if (/^[[{]/.test(value)) {
      if (last) return inFlow(value, pathOf(frames));
      if (depthOf(value) > 0) flow = value;
    } else if (last) {
      if (/^["']/.test(value) || rest.length === key[0].length) return undefined;
      return { path: pathOf(frames), kind: "value", word: value, beside: new Set() };
    }
    if (last) return undefined;
  }
  return undefined;
}

const pathOf = (frames: readonly Frame[]): readonly string[] => frames.map(({ step }) => step);

function leave(frames: Frame[], gone: (frame: Frame) => boolean): void {
  while (frames.length > 0 && gone(frames.at(-1)!)) frames.pop();
}

/** A line up to its comment, quotes heeded. */
function withoutComment(line: string): { readonly text: string; readonly comment: boolean } {
  let quote = "";
  for (let at = 0; at < line.length; at++) {
    const letter = line[at]!;
    if (quote !== "") {
      if (letter === quote) quote = "";
    } else if ((letter === '"' || letter === "'") && !/\w/.test(line[at - 1] ?? "")) quote = letter;
    else if (letter === "#" && /^$|\s/.test(line[at - 1] ?? "")) return { text: line.slice(0, at), comment: true };
  }
  return { text: line, comment: false };
}

type Bracket = { readonly kind: "{" | "["; readonly beside: Set<string>; key?: string };

const depthOf = (text: string): number => brackets(text).open.length;

/** The brackets open at the end of a text that begins with one, and the word begun in the innermost. */
function brackets(text: string): {
  readonly open: readonly Bracket[];
  readonly word: string;
  readonly quoted: boolean;
} {
  const open: Bracket[] = [];
  let word = "";
  let quote = "";
  for (let at = 0; at < text.length; at++) {
    const letter = text[at]!;
    const top = open.at(-1);
    if (quote !== "") {
      if (letter === quote) quote = "";
      else word += letter;
    } else if ((letter === '"' || letter === "'") && word.trim() === "") quote = letter;
    else if (letter === "{" || letter === "[") {
      open.push({ kind: letter, beside: new Set() });
      word = "";
    } else if (letter === "}" || letter === "]") {
      open.pop();
      word = "";
      if (open.length === 0) break;
    } else if (letter === ",") {
      if (top) delete top.key;
      word = "";
    } else if (letter === ":" && top?.kind === "{" && top.key === undefined && /^\s?$/.test(text[at + 1] ?? "")) {
      top.key = word.trim();
      top.beside.add(top.key);
      word = "";
    } else word += letter;
  }
  return { open, word: word.trimStart(), quoted: quote !== "" };
}

function inFlow(text: string, path: readonly string[]): PlaceInYaml | undefined {
  const { open, word, quoted } = brackets(text);
  const top = open.at(-1);
  if (!top || quoted) return undefined;
  const steps = open.flatMap(({ kind, key }) => (kind === "[" ? ["[]"] : key === undefined ? [] : [key]));
  const kind = top.kind === "{" && top.key === undefined ? "key" : "value";
  return { path: [...path, ...steps], kind, word, beside: kind === "key" ? top.beside : new Set() };
}
