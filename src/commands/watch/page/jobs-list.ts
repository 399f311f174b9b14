import type { JobFacts } from "../messages.ts";
import { fetchFacts } from "./connection.ts";
import { createElement, element } from "./element.ts";

type JobsListOptions = {
  readonly open: (path: string) => void;
  readonly current: () => string;
  readonly paths: () => readonly string[];
  readonly isUnsaved: (path: string) => boolean;
};

/** The list of jobs with its search, in a dialog. */
export function createJobsList({ open, current, paths, isUnsaved }: JobsListOptions): { readonly refresh: () => void } {
  const dialog = element<HTMLDialogElement>("jobs");
  const search = element<HTMLInputElement>("search");
  let facts: readonly JobFacts[] = [];
  const choose = (path: string) => {
    dialog.close();
    open(path);
  };
  const refresh = () => {
    if (!dialog.open) return;
    const found = paths()
      .map((path) => facts.find((one) => one.path === path) ?? { path, draft: false })
      .filter((one) => matches(one, search.value));
    element("found").textContent = found.length === 1 ? "1 job" : `${found.length} jobs`;
    element("jobs-list").replaceChildren(
      ...found.map((one) =>
        createElement("li", {}, jobButton(one, one.path === current(), isUnsaved(one.path), choose)),
      ),
    );
  };
  element("choose").addEventListener("click", async () => {
    search.value = "";
    dialog.showModal();
    refresh();
    facts = (await fetchFacts()) ?? facts;
    refresh();
  });
  search.addEventListener("input", refresh);
  search.addEventListener("keydown", (event) => {
    if (event.key !== "Enter") return;
    // Else the key would go on to the button that the closed dialog gives the focus back to.
    event.preventDefault();
    element("jobs-list").querySelector("button")?.click();
  });
  element("jobs-close").addEventListener("click", () => dialog.close());
  return { refresh };
}

/** Whether all words of a search stand in what is known of a job. */
function matches({ path, ticket, head, customer, draft }: JobFacts, search: string): boolean {
  const text = [path, ticket, head, customer, draft ? "draft" : "issued"].join(" ").toLowerCase();
  return search
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}

function jobButton(
  { path, ticket, head, customer, draft }: JobFacts,
  isCurrent: boolean,
  isUnsaved: boolean,
  choose: (path: string) => void,
): HTMLButtonElement {
  const title = [ticket, head].filter(Boolean).join(" · ");
  const about = [customer, draft ? "draft" : undefined, isUnsaved ? "not saved yet" : undefined].filter(Boolean);
  const button = createElement("button", { className: "job" });
  button.type = "button";
  if (isCurrent) button.ariaCurrent = "true";
  button.append(createElement("b", { text: title || path }));
  if (about.length > 0) button.append(createElement("span", { text: about.join(" · ") }));
  if (title) button.append(createElement("small", { text: path }));
  button.addEventListener("click", () => choose(path));
  return button;
}
