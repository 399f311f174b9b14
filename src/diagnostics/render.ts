import type { Diagnostic, Sources } from "./diagnostic.ts";
import { excerpt } from "./excerpt.ts";
import { createLineLookup, type Lines, placeOf } from "./line-counter.ts";
import { visibleText } from "./visible.ts";

type RenderOptions = { readonly colour?: boolean };

type Paint = (style: "error" | "warning" | "frame" | "strong", text: string) => string;

const ANSI = { error: "\u001b[1;31m", warning: "\u001b[1;33m", frame: "\u001b[1;34m", strong: "\u001b[1m" };
const paintAnsi: Paint = (style, text) => `${ANSI[style]}${text}\u001b[0m`;
const paintPlain: Paint = (_, text) => text;

function renderDiagnostic(diagnostic: Diagnostic, lines: Lines | undefined, paint: Paint): string {
  const { severity, code, message, at, note, hint } = diagnostic;
  const place = at && lines ? placeOf(lines, at.start) : undefined;
  const margin = " ".repeat(place ? String(place.line).length : 1);
  const out = [`${paint(severity, `${severity}[${code}]`)}${paint("strong", `: ${visibleText(message)}`)}`];

  if (at && !place) out.push(`${margin}${paint("frame", "-->")} ${visibleText(at.file)}`);
  if (at && place && lines) {
    out.push(`${margin}${paint("frame", "-->")} ${visibleText(at.file)}:${place.line}:${place.column}`);
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
    out.push(`${margin} ${paint("frame", "=")} ${paint("strong", `${name}:`)} ${visibleText(first)}`);
    for (const line of more) out.push(`${margin}         ${visibleText(line)}`.trimEnd());
  }
  return out.join("\n");
}

/** Renders diagnostics as text in the given order, separated by blank lines. */
export function render(diagnostics: readonly Diagnostic[], sources: Sources, options: RenderOptions = {}): string {
  const paint = options.colour ? paintAnsi : paintPlain;
  const linesFor = createLineLookup(sources);
  return diagnostics.map((one) => renderDiagnostic(one, one.at && linesFor(one.at.file), paint)).join("\n\n");
}
