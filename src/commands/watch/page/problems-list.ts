import type { EditorPosition, Problem } from "../messages.ts";
import { createElement } from "./element.ts";

/** "2 errors, 1 warning". */
export function countInWords(problems: readonly Problem[]): string {
  const warnings = problems.filter(({ severity }) => severity === "warning").length;
  const errors = problems.length - warnings;
  const counted = (count: number, one: string) => `${count} ${one}${count === 1 ? "" : "s"}`;
  const words = [errors > 0 ? counted(errors, "error") : "", warnings > 0 ? counted(warnings, "warning") : ""];
  return words.filter((word) => word !== "").join(", ") || "Nothing wrong";
}

/** Lists the problems as `check` renders them; positions in the job are buttons that move the cursor there. */
export function showProblems(
  list: HTMLElement,
  problems: readonly Problem[],
  goTo: (at: EditorPosition) => void,
): void {
  const focused = [...list.children].findIndex((item) => item.contains(document.activeElement));
  const items = problems.map((one) => itemOf(one, goTo));
  list.replaceChildren(
    ...(items.length > 0 ? items : [createElement("li", { className: "none", text: "Nothing wrong." })]),
  );
  // Keeps the keyboard focus in the list over a refresh.
  if (focused >= 0) (list.children[Math.min(focused, items.length - 1)]?.querySelector("button") ?? list).focus();
}

function itemOf(
  { severity, code, message, note, hint, place, excerpt, span }: Problem,
  goTo: (at: EditorPosition) => void,
): HTMLElement {
  const item = createElement("li", { className: severity });
  item.append(createElement("b", { text: `${severity}: ` }), createElement("span", { text: message }));
  if (place) {
    const where = `${place.file}:${place.line}:${place.column}`;
    if (span) {
      const button = createElement("button", { text: where });
      button.type = "button";
      button.addEventListener("click", () => goTo(span.from));
      item.append(createElement("div", {}, button));
    } else item.append(createElement("div", { text: where }));
  }
  if (place && excerpt) {
    const margin = `${place.line} | `;
    const carets = " ".repeat(margin.length + excerpt.before) + "^".repeat(excerpt.carets);
    const lines = createElement("pre", { text: `${margin}${excerpt.text}\n${carets}` });
    lines.ariaHidden = "true";
    item.append(lines);
  }
  for (const [name, text] of [
    ["note", note],
    ["hint", hint],
  ] as const)
    if (text !== undefined) item.append(createElement("div", { text: `${name}: ${text}` }));
  item.append(createElement("div", { className: "code", text: code }));
  return item;
}
