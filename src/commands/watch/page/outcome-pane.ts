import type { EditorPosition, Outcome, Problem, SheetInfo } from "../messages.ts";
import { createButton, element } from "./element.ts";
import { showFigures } from "./figures-pane.ts";
import type { JobState } from "./job-state.ts";
import type { Pages } from "./pages.ts";
import { countInWords, showProblems } from "./problems-list.ts";

type OutcomeOptions = {
  readonly pages: Pages;
  readonly isDirty: () => boolean;
  readonly goTo: (at: EditorPosition) => void;
  readonly showOther: (file: string, line: number) => void;
  readonly fix: (problem: Problem) => void;
};

/** Shows the result of a text: problems, sheets and figures. */
export function showOutcome(now: JobState, outcome: Outcome, options: OutcomeOptions): void {
  const { problems } = outcome;
  const words = countInWords(problems);
  element("problems-title").textContent = problems.length === 0 ? "Problems" : words;
  element("count").textContent = problems.length === 0 ? "" : `(${problems.length})`;
  if (element("unseen").textContent !== words) element("unseen").textContent = words;
  document.title = `${problems.length > 0 ? `(${problems.length}) ` : ""}${now.path} – headsheet`;
  showProblems(element("list"), problems, options);
  element("shop").textContent = outcome.shopFile === undefined ? "no shop.yaml" : `shop: ${outcome.shopFile}`;
  now.others = outcome.others;
  // A text with errors gives no sheet: the last good one of this page's text stays.
  if (!outcome.outOfDate || outcome.sheets.length > 0) {
    now.sheets = outcome.sheets;
    now.figures = outcome.figures;
    now.readingPlaces = outcome.readingPlaces;
  }
  showSheets(now, outcome.outOfDate, options);
}

function showSheets(now: JobState, outOfDate: boolean, options: OutcomeOptions): void {
  const stale = outOfDate && now.sheets.length > 0;
  const chosen = now.sheets.find((one) => one.template === now.template) ?? now.sheets[0];
  const dirty = options.isDirty();
  options.pages.show(chosen);
  element("pages").classList.toggle("stale", stale);
  const follows = element("follows");
  const words = stale
    ? "Out of date: these are the last pages that could be made. Mend the errors to see the new ones."
    : now.sheets.length === 0
      ? ""
      : dirty
        ? "These pages follow the text as typed here, which is not saved yet."
        : "These pages follow the saved file.";
  if (follows.textContent !== words) follows.textContent = words;
  follows.className = stale ? "stale" : dirty ? "unsaved" : "";
  if (stale) showFigures(`out of date: the last figures that could be worked out\n\n${now.figures}`, {}, options.goTo);
  else showFigures(now.figures, now.readingPlaces, options.goTo);
  const pdf = element<HTMLAnchorElement>("pdf");
  pdf.hidden = !chosen;
  if (chosen) {
    pdf.href = `sheets/${chosen.id}.pdf`;
    pdf.textContent = `Open the PDF, ${chosen.pages.length} ${chosen.pages.length === 1 ? "page" : "pages"}`;
  }
  showTemplates(now, chosen, () => showSheets(now, outOfDate, options));
}

function showTemplates(now: JobState, chosen: SheetInfo | undefined, refresh: () => void): void {
  const names = now.sheets.map((one) => one.template);
  const buttons = names.map((name) => {
    const button = createButton(name, () => {
      now.template = name;
      element("pages").scrollTop = 0;
      refresh();
    });
    button.ariaPressed = String(name === chosen?.template);
    return button;
  });
  const group = element("templates");
  const focused = [...group.children].findIndex((one) => one === document.activeElement);
  group.replaceChildren(...(names.length < 2 ? [] : buttons));
  if (focused >= 0) buttons[focused]?.focus();
}
