import type { Diagnostic, Sources } from "./diagnostic.ts";
import { excerpt } from "./excerpt.ts";
import { type Lines, linesOf, placeOf } from "./line-counter.ts";
import { visible } from "./visible.ts";

export type RenderOptions = { readonly colour?: boolean };

type Paint = (style: "error" | "warning" | "frame" | "strong", text: string) => string;

const ANSI = { error: "\u001b[1;31m", warning: "\u001b[1;33m", frame: "\u001b[1;34m", strong: "\u001b[1m" };
const inColour: Paint = (style, text) => `${ANSI[style]}${text}\u001b[0m`;
const plain: Paint = (_, text) => text;

function renderOne(diagnostic: Diagnostic, lines: Lines | undefined, paint: Paint): string {
  const { severity, code, message, at, note, hint } = diagnostic;
  const place = at && lines ? placeOf(lines, at.start) : undefined;
  const margin = " ".repeat(place ? String(place.line).length : 1);
  const out = [`${paint(severity, `${severity}[${code}]`)}${paint("strong", `: ${visible(message)}`)}`];

  if (at && !place) out.push(`${margin}${paint("frame", "-->")} ${visible(at.file)}`);
  if (at && place && lines) {
    out.push(`${margin}${paint("frame", "-->")} ${visible(at.file)}:${place.line}:${place.column}`);
    const shown = excerpt(
      lines.text.slice(place.lineStart, place.lineEnd),
      at.start - place.lineStart,
      at.end - place.lineStart,
    );
    out.push(`${paint("frame", `${place.line} |`)} ${shown.text}`.trimEnd());
    out.push(
      `${margin} ${paint("frame", "|")} ${" ".repeat(shown.before)}${paint(severity, "^".repeat(shown.carets))}`,
    );
  }
  for (const [name, text] of [
    ["note", note],
    ["hint", hint],
  ] as const) {
    if (text === undefined) continue;
    const [first = "", ...more] = text.split(/\r?\n/);
    out.push(`${margin} ${paint("frame", "=")} ${paint("strong", `${name}:`)} ${visible(first)}`);
    for (const line of more) out.push(`${margin}         ${visible(line)}`.trimEnd());
  }
  return out.join("\n");
}

/** Diagnostics as text for people, a blank line between two. Pure: sorting, and where it is written, are the caller's. */
export function render(diagnostics: readonly Diagnostic[], sources: Sources, options: RenderOptions = {}): string {
  const paint = options.colour ? inColour : plain;
  const cut = new Map<string, Lines>();
  const linesFor = (file: string) => {
    const text = sources.get(file);
    if (text !== undefined && !cut.has(file)) cut.set(file, linesOf(text));
    return cut.get(file);
  };
  return diagnostics.map((one) => renderOne(one, one.at && linesFor(one.at.file), paint)).join("\n\n");
}
