import type { EditorPosition, Problem } from "../messages.ts";
import { fixName } from "./editor-positions.ts";
import { createButton, createElement } from "./element.ts";

/** "2 errors, 1 warning". */
export function countInWords(problems: readonly Problem[]): string {
  const warnings = problems.filter(({ severity }) => severity === "warning").length;
  const errors = problems.length - warnings;
  const counted = (count: number, one: string) => `${count} ${one}${count === 1 ? "" : "s"}`;
  const words = [errors > 0 ? counted(errors, "error") : "", warnings > 0 ? counted(warnings, "warning") : ""];
  return words.filter((word) => word !== "").join(", ") || "Nothing wrong";
}

/** What the buttons of a problem do. */
type ProblemActions = {
  readonly goTo: (at: EditorPosition) => void;
  /** Shows a line of another file. */
  readonly showOther: (file: string, line: number) => void;
  readonly fix: (problem: Problem) => void;
};

/** Lists the problems as `check` renders them, with buttons that lead to their places and write what was meant. */
export function showProblems(list: HTMLElement, problems: readonly Problem[], actions: ProblemActions): void {
  const focused = [...list.children].findIndex((item) => item.contains(document.activeElement));
  const items = problems.map((one) => itemOf(one, actions));
  list.replaceChildren(
    ...(items.length > 0 ? items : [createElement("li", { className: "none", text: "Nothing wrong." })]),
  );
  // Keeps the keyboard focus in the list over a refresh.
  if (focused >= 0) (list.children[Math.min(focused, items.length - 1)]?.querySelector("button") ?? list).focus();
}

function itemOf(problem: Problem, { goTo, showOther, fix }: ProblemActions): HTMLElement {
  const { severity, code, message, note, hint, place, excerpt, span } = problem;
  const item = createElement("li", { className: severity });
  item.append(createElement("b", { text: `${severity}: ` }), createElement("span", { text: message }));
  if (place) {
    const act = () => (span ? goTo(span.from) : showOther(place.file, place.line));
    const buttons = [createButton(`${place.file}:${place.line}:${place.column}`, act)];
    if (problem.fix) buttons.push(createButton(fixName(problem.fix), () => fix(problem)));
    item.append(createElement("div", {}, ...buttons));
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
