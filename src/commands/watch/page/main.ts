import type { JobList, JobText, JobView, Outcome, SheetInfo } from "../messages.ts";
import type { Schema } from "./completions.ts";
import { showConflict } from "./conflict.ts";
import { postDraft, postSave, subscribe } from "./connection.ts";
import { createEditor } from "./editor.ts";
import { createElement, element } from "./element.ts";
import { createPages } from "./pages.ts";
import { createPanes } from "./panes.ts";
import { countInWords, showProblems } from "./problems-list.ts";

/** Delay from the last edit to its evaluation [ms]. */
const TYPING_DELAY = 200;
/** Delay before retrying when the server was busy [ms]. */
const BUSY_DELAY = 500;

/** State of the page. */
type PageState = {
  schema?: Schema;
  job: number;
  stopHearing: () => void;
  /** Version of the file that the text is based on; undefined before loading and without a file. */
  base: JobText | undefined;
  view: JobView | undefined;
  loaded: boolean;
  conflict: boolean;
  pause: number | undefined;
  /** Counts edits, so that the result of an older text is discarded. */
  typed: number;
  asking: boolean;
  template: string | undefined;
  sheets: readonly SheetInfo[];
  figures: string;
};

/** Initial state of a job that is being opened. */
const emptyJobState = () => ({
  base: undefined,
  view: undefined,
  template: undefined,
  sheets: [],
  figures: "",
  loaded: false,
  conflict: false,
});

const page: PageState = {
  job: jobFromHash(),
  stopHearing: () => {},
  pause: undefined,
  typed: 0,
  asking: false,
  ...emptyJobState(),
};

void fetch("job.schema.json")
  .then((answer) => answer.json())
  .then((read: Schema) => {
    page.schema = read;
  });

const panes = createPanes();
const pages = createPages(element("pages"));
const nonce = document.querySelector<HTMLScriptElement>("script[nonce]")?.nonce ?? "";
const editor = createEditor({
  parent: element("text"),
  nonce,
  schema: () => page.schema,
  edited: () => {
    page.typed++;
    showState();
    if (!page.loaded) return;
    clearTimeout(page.pause);
    page.pause = window.setTimeout(() => void refreshOutcome(), TYPING_DELAY);
  },
  save: () => void save(),
  at: (problems) => {
    const here = element("here");
    const text = problems.map(({ severity, message }) => `${severity}: ${message}`).join("\n");
    if (here.textContent !== text) here.textContent = text;
    here.className = problems[0]?.severity ?? "";
  },
});

const isDirty = () => page.loaded && editor.text() !== (page.base?.text ?? "");

/** Shows the result of the text in the editor, saved or not. */
async function refreshOutcome(): Promise<void> {
  if (!page.view) return;
  if (!isDirty()) {
    showOutcome(page.view.outcome);
    return;
  }
  // One request at a time; edits made meanwhile are evaluated next.
  if (page.asking) return;
  page.asking = true;
  const [about, of] = [page.typed, page.job];
  const outcome = await postDraft(page.job, { text: editor.text() });
  page.asking = false;
  if (of !== page.job) return;
  if (about === page.typed && isDirty() && outcome) showOutcome(outcome);
  else {
    clearTimeout(page.pause);
    page.pause = window.setTimeout(() => void refreshOutcome(), outcome ? 0 : BUSY_DELAY);
  }
}

function receiveView(news: JobView): void {
  if (news.job !== page.job) return;
  page.view = news;
  const { saved } = news;
  if (!page.loaded) {
    page.base = saved;
    editor.open(saved?.text ?? "", saved?.why !== undefined);
    page.loaded = true;
    showRefusal(saved?.why);
  } else if (saved?.stamp !== page.base?.stamp) {
    if (saved && saved.text === editor.text()) markSaved(saved);
    else if (!isDirty() && saved) {
      page.base = saved;
      editor.replace(saved.text);
      markSaved(saved);
    } else if (isDirty()) openConflict(saved);
  }
  showState();
  void refreshOutcome();
}

/** Marks the text as equal to the file, without conflict. */
function markSaved(saved: JobText): void {
  page.base = saved;
  page.conflict = false;
  element("conflict").hidden = true;
  showRefusal(undefined);
  showState();
}

function openConflict(theirs: JobText | undefined): void {
  page.conflict = true;
  if (document.body.dataset.pane !== "editor") panes.to("editor");
  showConflict(element("conflict"), {
    mine: editor.text(),
    ...(theirs ? { theirs } : {}),
    takeTheirs: () => {
      if (!theirs) return;
      page.base = theirs;
      editor.replace(theirs.text);
      markSaved(theirs);
      editor.focus();
      void refreshOutcome();
    },
    keepMine: () => {
      page.base = theirs;
      page.conflict = false;
      element("conflict").hidden = true;
      void save();
      editor.focus();
    },
  });
  showState();
}

async function save(): Promise<void> {
  if (!page.loaded || page.base?.why !== undefined) return;
  if (page.conflict) {
    element("conflict-title").focus();
    return;
  }
  const text = editor.text();
  if (!isDirty() && page.base) return;
  const saved = await postSave(page.job, { text, ...(page.base ? { over: page.base.stamp } : {}) });
  if (!saved) showRefusal("the program does not answer: nothing was saved");
  else if (saved.kind === "refused") showRefusal(saved.why);
  else if (saved.kind === "saved") {
    markSaved({ text, stamp: saved.stamp });
    if (saved.otherVersion !== undefined)
      showRefusal(
        `Another program saved this file in the same moment. What it saved is kept beside it as ${saved.otherVersion}.`,
      );
  } else {
    openConflict(saved.theirs);
    element("conflict-title").focus();
  }
}

function showRefusal(why: string | undefined): void {
  element("refused").hidden = why === undefined;
  element("refused").textContent = why ?? "";
}

function showState(): void {
  const dirty = isDirty();
  const state = element("state");
  const words = !page.loaded
    ? "being read"
    : page.conflict
      ? "not saved: the file has changed"
      : dirty
        ? "not saved yet"
        : page.base
          ? "saved"
          : "no file";
  if (state.textContent !== words) state.textContent = words;
  state.classList.toggle("unsaved", dirty);
  const button = element<HTMLButtonElement>("save");
  button.disabled = !dirty;
  button.classList.toggle("first", dirty);
}

function showOutcome(outcome: Outcome): void {
  const words = countInWords(outcome.problems);
  element("problems-title").textContent = outcome.problems.length === 0 ? "Problems" : words;
  element("count").textContent = outcome.problems.length === 0 ? "" : `(${outcome.problems.length})`;
  if (element("unseen").textContent !== words) element("unseen").textContent = words;
  document.title = `${outcome.problems.length > 0 ? `(${outcome.problems.length}) ` : ""}${nameOfJob()} – headsheet`;
  showProblems(element("list"), outcome.problems, (at) => {
    panes.to("editor");
    editor.goTo(at);
  });
  editor.mark(outcome.problems);
  element("shop").textContent = outcome.shopFile === undefined ? "no shop.yaml" : `shop: ${outcome.shopFile}`;
  // A text with errors gives no sheet: the last good one stays.
  if (!outcome.outOfDate || outcome.sheets.length > 0) {
    page.sheets = outcome.sheets;
    page.figures = outcome.figures;
  }
  showSheets(outcome.outOfDate);
}

function showSheets(outOfDate: boolean): void {
  const stale = outOfDate && page.sheets.length > 0;
  const chosen = page.sheets.find((one) => one.template === page.template) ?? page.sheets[0];
  pages.show(chosen);
  element("pages").classList.toggle("stale", stale);
  const follows = element("follows");
  const words = stale
    ? "Out of date: these are the last pages that could be made. Mend the errors to see the new ones."
    : page.sheets.length === 0
      ? ""
      : isDirty()
        ? "These pages follow the text as typed here, which is not saved yet."
        : "These pages follow the saved file.";
  if (follows.textContent !== words) follows.textContent = words;
  follows.className = stale ? "stale" : isDirty() ? "unsaved" : "";
  const numbers = element("numbers");
  const text = stale ? `out of date: the last figures that could be worked out\n\n${page.figures}` : page.figures;
  if (numbers.textContent !== text) numbers.textContent = text;
  const pdf = element<HTMLAnchorElement>("pdf");
  pdf.hidden = !chosen;
  if (chosen) {
    pdf.href = `sheets/${chosen.id}.pdf`;
    pdf.textContent = `Open the PDF, ${chosen.pages.length} ${chosen.pages.length === 1 ? "page" : "pages"}`;
  }
  showTemplates(chosen, outOfDate);
}

function showTemplates(chosen: SheetInfo | undefined, outOfDate: boolean): void {
  const group = element("templates");
  const names = page.sheets.map((one) => one.template);
  const standing = [...group.children].map(({ textContent }) => textContent);
  if (names.length < 2) group.replaceChildren();
  else if (names.join("\n") !== standing.join("\n"))
    group.replaceChildren(
      ...names.map((name) => {
        const button = createElement("button", { text: name });
        button.type = "button";
        button.addEventListener("click", () => {
          page.template = name;
          element("pages").scrollTop = 0;
          showSheets(element("pages").classList.contains("stale") || outOfDate);
        });
        return button;
      }),
    );
  for (const button of group.children) button.ariaPressed = String(button.textContent === chosen?.template);
}

const select = element<HTMLSelectElement>("job");
const nameOfJob = () => select.selectedOptions[0]?.textContent ?? "";

function receiveJobs({ jobs }: JobList): void {
  const names = jobs.map(({ path }) => path);
  if ([...select.options].map(({ text }) => text).join("\n") !== names.join("\n"))
    select.replaceChildren(
      ...jobs.map((one) => {
        const option = createElement("option", { text: one.path });
        option.value = String(one.job);
        return option;
      }),
    );
  select.value = String(page.job);
}

function jobFromHash(): number {
  const found = /^#(\d{1,4})$/.exec(location.hash);
  return found ? Number(found[1]) : 0;
}

/** Opens a job, after a confirmation if text is unsaved. */
function openJob(next: number): void {
  if (isDirty() && !confirm("The text is not saved. Leave it?")) {
    select.value = String(page.job);
    return;
  }
  page.job = next;
  history.replaceState(null, "", `#${page.job}`);
  page.typed++;
  clearTimeout(page.pause);
  Object.assign(page, emptyJobState());
  element("conflict").hidden = true;
  element("pages").scrollTop = 0;
  // Read-only until the job's text has arrived.
  editor.open("", true);
  showState();
  subscribeToJob();
}

function subscribeToJob(): void {
  page.stopHearing();
  page.stopHearing = subscribe(page.job, {
    jobs: receiveJobs,
    view: receiveView,
    there: (is) => {
      const gone = element("gone");
      if (gone.hidden === is) return;
      gone.hidden = is;
      gone.textContent = is
        ? ""
        : "The program does not answer. Trying again; if it was started anew, open the address that it printed.";
    },
  });
}

select.addEventListener("change", () => openJob(Number(select.value)));
element("save").addEventListener("click", () => void save());
document.addEventListener("keydown", (event) => {
  if (event.key !== "s" || !(event.ctrlKey || event.metaKey) || event.defaultPrevented) return;
  event.preventDefault();
  void save();
});
window.addEventListener("beforeunload", (event) => {
  if (isDirty()) event.preventDefault();
});
panes.to("sheet");
subscribeToJob();
