import type { JobText } from "../messages.ts";
import { createButton, createElement } from "./element.ts";
import { lineDifference } from "./line-difference.ts";

type Conflict = {
  readonly mine: string;
  /** Missing if the file was removed. */
  readonly theirs?: JobText;
  readonly takeTheirs: () => void;
  readonly keepMine: () => void;
};

const SIDES = { mine: "here:   ", theirs: "in file:", both: "        ", gap: "      …" } as const;

/** Shows the differences between the edited text and the file, with a button for each resolution. */
export function showConflict(parent: HTMLElement, { mine, theirs, takeTheirs, keepMine }: Conflict): void {
  const title = createElement("b", {
    text: theirs
      ? "The file has changed while you were typing here. Nothing was saved over it."
      : "The file is gone. What stood in it is here.",
  });
  title.id = "conflict-title";
  title.tabIndex = -1;
  const inside: Node[] = [title];
  if (theirs) {
    const lines = lineDifference(mine, theirs.text).map(({ side, text }) =>
      createElement(side === "mine" ? "ins" : side === "theirs" ? "del" : "span", { text: `${SIDES[side]} ${text}\n` }),
    );
    const shown = createElement("pre", {}, ...lines);
    shown.tabIndex = 0;
    shown.role = "region";
    shown.ariaLabel = "Lines that differ";
    inside.push(
      shown,
      createButton("Take the file's text", takeTheirs),
      createButton("Keep mine and overwrite the file", keepMine),
    );
  } else inside.push(createElement("div", {}, createButton("Write it again", keepMine)));
  const focused = parent.contains(document.activeElement);
  parent.replaceChildren(...inside);
  parent.hidden = false;
  if (focused) title.focus();
}
