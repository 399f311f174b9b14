import type { At, Problem } from "../messages.ts";
import { make } from "./element.ts";

/** "2 errors, 1 warning". */
export function countInWords(problems: readonly Problem[]): string {
  const warnings = problems.filter(({ severity }) => severity === "warning").length;
  const errors = problems.length - warnings;
  const counted = (count: number, one: string) => `${count} ${one}${count === 1 ? "" : "s"}`;
  const words = [errors > 0 ? counted(errors, "error") : "", warnings > 0 ? counted(warnings, "warning") : ""];
  return words.filter((word) => word !== "").join(", ") || "Nothing wrong";
}

/** Writes the problems out as `check` says them; a place in the job leads there. */
export function listProblems(list: HTMLElement, problems: readonly Problem[], goTo: (at: At) => void): void {
  const focused = [...list.children].findIndex((item) => item.contains(document.activeElement));
  const items = problems.map((one) => itemOf(one, goTo));
  list.replaceChildren(...(items.length > 0 ? items : [make("li", { className: "none", text: "Nothing wrong." })]));
  // Whoever walks the list by keyboard is not thrown out of it by a refresh.
  if (focused >= 0) (list.children[Math.min(focused, items.length - 1)]?.querySelector("button") ?? list).focus();
}

function itemOf(
  { severity, code, message, note, hint, place, excerpt, span }: Problem,
  goTo: (at: At) => void,
): HTMLElement {
  const item = make("li", { className: severity });
  item.append(make("b", { text: `${severity}: ` }), make("span", { text: message }));
  if (place) {
    const where = `${place.file}:${place.line}:${place.column}`;
    if (span) {
      const button = make("button", { text: where });
      button.type = "button";
      button.addEventListener("click", () => goTo(span.from));
      item.append(make("div", {}, button));
    } else item.append(make("div", { text: where }));
  }
  if (place && excerpt) {
    const margin = `${place.line} | `;
    const carets = " ".repeat(margin.length + excerpt.before) + "^".repeat(excerpt.carets);
    const lines = make("pre", { text: `${margin}${excerpt.text}\n${carets}` });
    lines.ariaHidden = "true";
    item.append(lines);
  }
  for (const [name, text] of [
    ["note", note],
    ["hint", hint],
  ] as const)
    if (text !== undefined) item.append(make("div", { text: `${name}: ${text}` }));
  item.append(make("div", { className: "code", text: code }));
  return item;
}
