import type { JobList } from "../messages.ts";
import { createBench } from "./bench.ts";
import type { Schema } from "./completions.ts";
import { fetchJobs, postDraft, postMake, subscribe } from "./connection.ts";
import { createEditor } from "./editor.ts";
import { createButton, element } from "./element.ts";
import { jobOfAddress } from "./job-address.ts";
import { type JobState, newJobState } from "./job-state.ts";
import { createJobsList } from "./jobs-list.ts";
import { openKeptTexts } from "./kept-texts.ts";
import { createNewJobForm } from "./new-job-form.ts";
import { hideOtherFile, showOtherFile } from "./other-file.ts";
import { showOutcome } from "./outcome-pane.ts";
import { createPages } from "./pages.ts";
import { createPanes } from "./panes.ts";
import { createTextSync, showNote, showRefusal } from "./text-sync.ts";

/** Delay from the last edit to its evaluation [ms]. */
const TYPING_DELAY = 40;
/** Delay before retrying when the server was busy [ms]. */
const BUSY_DELAY = 500;

const panes = createPanes();
const pages = createPages(element("pages"));
const kept = await openKeptTexts();
const states = new Map<string, JobState>();
const firstList: JobList = (await fetchJobs()) ?? { jobs: [] };

/** What changes while the page is open. */
const page: {
  /** Keys of a job file, once they have come. */
  schema?: Schema;
  list: JobList;
  /** The job in the editor. */
  open: JobState;
  /** Ends the events of that job. */
  stopHearing: () => void;
  /** Timer of the next evaluation. */
  pause?: number;
  /** Whether an evaluation is under way. */
  asking: boolean;
} = { list: firstList, open: stateOf(jobOfAddress(firstList), firstList), stopHearing: () => {}, asking: false };

void fetch("job.schema.json")
  .then((answer) => answer.json())
  .then((read: Schema) => {
    page.schema = read;
  });

const editor = createEditor({
  parent: element("text"),
  nonce: document.querySelector<HTMLScriptElement>("script[nonce]")?.nonce ?? "",
  schema: () => page.schema,
  edited: () => {
    page.open.typed++;
    sync.update();
    if (page.open.loaded) evaluateAfter(TYPING_DELAY);
    if (isAtBench()) bench.refresh();
  },
  save: () => void sync.save(),
  at: (problems) => {
    const here = element("here");
    const text = problems.map(({ severity, message }) => `${severity}: ${message}`).join("\n");
    if (here.textContent !== text) here.textContent = text;
    here.className = problems[0]?.severity ?? "";
  },
});
const sync = createTextSync({
  editor,
  current: () => page.open,
  kept,
  refresh: () => void refreshOutcome(),
  showEditor: () => {
    if (document.body.dataset.pane !== "editor") panes.to("editor");
  },
});
/** At the bench no sheet is made: its view brings the problems. */
const isAtBench = () => document.body.dataset.pane === "bench";
const bench = createBench({
  job: () => page.open,
  text: editor.text,
  replace: (text) => editor.replace(text, "here"),
  undo: editor.undo,
  save: () => void sync.save(),
});
for (const button of document.querySelectorAll<HTMLButtonElement>("nav button[data-to]"))
  button.addEventListener("click", () => (isAtBench() ? bench.refresh() : void refreshOutcome()));
const outcomeOptions = {
  pages,
  isDirty: sync.isDirty,
  goTo: (at: { line: number; ch: number }) => {
    hideOtherFile();
    panes.to("editor");
    editor.goTo(at);
  },
  showOther: (file: string, line: number) => {
    panes.to("editor");
    showOtherFile(file, page.open.others[file] ?? "", line);
  },
  fix: editor.fix,
};
const jobsList = createJobsList({
  open: openJob,
  current: () => page.open.path,
  paths: () => page.list.jobs.map(({ path }) => path),
  isUnsaved: (path) => (path === page.open.path ? sync.isDirty() : (states.get(path)?.leftUnsaved ?? false)),
});

function evaluateAfter(delay: number): void {
  clearTimeout(page.pause);
  page.pause = window.setTimeout(() => void refreshOutcome(), delay);
}

/** Shows the result of the text in the editor, saved or not. */
async function refreshOutcome(): Promise<void> {
  if (!page.open.view) return;
  const show = (outcome: typeof page.open.view.outcome) => {
    showOutcome(page.open, outcome, outcomeOptions);
    editor.mark(outcome.problems);
  };
  if (!sync.isDirty()) return show(page.open.view.outcome);
  if (isAtBench()) return;
  // One request at a time; edits made meanwhile are evaluated next.
  if (page.asking) return;
  page.asking = true;
  const [about, of] = [page.open.typed, page.open];
  const outcome = await postDraft(of.job, { text: editor.text(), path: of.path });
  page.asking = false;
  if (of === page.open && about === page.open.typed && sync.isDirty() && outcome) show(outcome);
  else evaluateAfter(outcome ? 0 : BUSY_DELAY);
}

function stateOf(path: string, { jobs } = page.list): JobState {
  const known = states.get(path) ?? newJobState(numberOf(path, jobs) ?? 0, path);
  states.set(path, known);
  return known;
}

function numberOf(path: string, jobs = page.list.jobs): number | undefined {
  return jobs.find((one) => one.path === path)?.job;
}

/** Whether a number is this job's: the number of one that was removed stays, until the program is started anew. */
const isListedAs = (number: number, path: string) =>
  (page.list.jobs.find(({ job }) => job === number)?.path ?? path) === path;

/** Opens a job; text and history of the one before stay as they are. */
function openJob(path: string): void {
  if (path === page.open.path) return;
  page.open.left = editor.snapshot();
  page.open.leftUnsaved = sync.isDirty();
  page.open = stateOf(path);
  clearTimeout(page.pause);
  hideOtherFile();
  for (const id of ["conflict", "refused", "note"]) element(id).hidden = true;
  page.open.conflict = false;
  pages.clear();
  if (page.open.left) editor.restore(page.open.left);
  // Read-only until the job's text has arrived.
  else editor.open("", true);
  showJob();
}

function showJob(): void {
  history.replaceState(null, "", `#${encodeURI(page.open.path)}`);
  element("choose").textContent = page.open.path;
  sync.update();
  subscribeToJob();
}

/** Follows the list; a restarted program may have given this job another number. */
function receiveJobs(news: JobList): void {
  page.list = news;
  jobsList.refresh();
  const number = numberOf(page.open.path);
  if (number === undefined || number === page.open.job) return;
  page.open.job = number;
  subscribeToJob();
}

function subscribeToJob(): void {
  page.stopHearing();
  page.stopHearing = subscribe(page.open.job, {
    jobs: receiveJobs,
    view: (view) => {
      if (view.job !== page.open.job || !isListedAs(view.job, page.open.path)) return;
      sync.receive(view);
      if (isAtBench()) bench.refresh();
    },
    there: (is) => {
      const gone = element("gone");
      if (gone.hidden === is) return;
      gone.hidden = is;
      gone.textContent = is
        ? ""
        : "The program does not answer. What is typed here is kept in this browser and can be saved when the program runs again.";
    },
  });
}

element("other-bar").append(
  createButton("Back to the job", () => {
    hideOtherFile();
    editor.focus();
  }),
);
/** Opens a job that was just written, once it is listed, at the bench. */
createNewJobForm(async (path) => {
  for (let tries = 0; numberOf(path) === undefined && tries < 50; tries++) {
    await new Promise((done) => setTimeout(done, 200));
    page.list = (await fetchJobs()) ?? page.list;
  }
  if (numberOf(path) === undefined) return;
  element<HTMLDialogElement>("jobs").close();
  openJob(path);
  panes.to("bench");
});
element("make").addEventListener("click", async () => {
  const { job, path } = page.open;
  const dirty = sync.isDirty();
  const made = dirty ? undefined : await postMake(job, path);
  const words = dirty
    ? "Not made: the text is not saved yet."
    : made === undefined
      ? "The program does not answer: nothing was made."
      : made.made
        ? `Made: ${made.files.join(", ")}`
        : `Not made. ${made.said}`;
  element("made").textContent = words;
  element("made").hidden = false;
});
element("save").addEventListener("click", () => void sync.save());
document.addEventListener("keydown", (event) => {
  if (event.key !== "s" || !(event.ctrlKey || event.metaKey) || event.defaultPrevented) return;
  event.preventDefault();
  void sync.save();
});
window.addEventListener("beforeunload", (event) => {
  if (sync.isDirty() || [...states.values()].some((one) => one !== page.open && one.leftUnsaved))
    event.preventDefault();
});
window.addEventListener("hashchange", () => openJob(jobOfAddress(page.list)));
showRefusal(undefined);
showNote(undefined);
panes.to("sheet");
showJob();
