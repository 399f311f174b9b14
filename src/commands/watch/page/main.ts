import type { JobList } from "../messages.ts";
import type { Schema } from "./completions.ts";
import { fetchJobs, postDraft, subscribe } from "./connection.ts";
import { createEditor } from "./editor.ts";
import { createButton, element } from "./element.ts";
import { jobOfAddress } from "./job-address.ts";
import { type JobState, newJobState } from "./job-state.ts";
import { createJobsList } from "./jobs-list.ts";
import { openKeptTexts } from "./kept-texts.ts";
import { hideOtherFile, showOtherFile } from "./other-file.ts";
import { showOutcome } from "./outcome-pane.ts";
import { createPages } from "./pages.ts";
import { createPanes } from "./panes.ts";
import { createTextSync, showNote, showRefusal } from "./text-sync.ts";

/** Delay from the last edit to its evaluation [ms]. */
const TYPING_DELAY = 40;
/** Delay before retrying when the server was busy [ms]. */
const BUSY_DELAY = 500;

let schema: Schema | undefined;
void fetch("job.schema.json")
  .then((answer) => answer.json())
  .then((read: Schema) => {
    schema = read;
  });

const panes = createPanes();
const pages = createPages(element("pages"));
const kept = await openKeptTexts();
const states = new Map<string, JobState>();
let list: JobList = (await fetchJobs()) ?? { jobs: [] };
let now = stateOf(jobOfAddress(list));
let stopHearing = () => {};
let pause: number | undefined;
let asking = false;

const editor = createEditor({
  parent: element("text"),
  nonce: document.querySelector<HTMLScriptElement>("script[nonce]")?.nonce ?? "",
  schema: () => schema,
  edited: () => {
    now.typed++;
    sync.update();
    if (now.loaded) evaluateAfter(TYPING_DELAY);
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
  current: () => now,
  kept,
  refresh: () => void refreshOutcome(),
  showEditor: () => {
    if (document.body.dataset.pane !== "editor") panes.to("editor");
  },
});
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
    showOtherFile(file, now.others[file] ?? "", line);
  },
  fix: editor.fix,
};
const jobsList = createJobsList({
  open: openJob,
  current: () => now.path,
  paths: () => list.jobs.map(({ path }) => path),
  isUnsaved: (path) => (path === now.path ? sync.isDirty() : (states.get(path)?.leftUnsaved ?? false)),
});

function evaluateAfter(delay: number): void {
  clearTimeout(pause);
  pause = window.setTimeout(() => void refreshOutcome(), delay);
}

/** Shows the result of the text in the editor, saved or not. */
async function refreshOutcome(): Promise<void> {
  if (!now.view) return;
  const show = (outcome: typeof now.view.outcome) => {
    showOutcome(now, outcome, outcomeOptions);
    editor.mark(outcome.problems);
  };
  if (!sync.isDirty()) return show(now.view.outcome);
  // One request at a time; edits made meanwhile are evaluated next.
  if (asking) return;
  asking = true;
  const [about, of] = [now.typed, now];
  const outcome = await postDraft(of.job, { text: editor.text(), path: of.path });
  asking = false;
  if (of === now && about === now.typed && sync.isDirty() && outcome) show(outcome);
  else evaluateAfter(outcome ? 0 : BUSY_DELAY);
}

function stateOf(path: string): JobState {
  const known = states.get(path) ?? newJobState(numberOf(path) ?? 0, path);
  states.set(path, known);
  return known;
}

function numberOf(path: string): number | undefined {
  return list.jobs.find((one) => one.path === path)?.job;
}

/** Whether a number is this job's: the number of one that was removed stays, until the program is started anew. */
const isListedAs = (number: number, path: string) =>
  (list.jobs.find(({ job }) => job === number)?.path ?? path) === path;

/** Opens a job; text and history of the one before stay as they are. */
function openJob(path: string): void {
  if (path === now.path) return;
  now.left = editor.snapshot();
  now.leftUnsaved = sync.isDirty();
  now = stateOf(path);
  clearTimeout(pause);
  hideOtherFile();
  for (const id of ["conflict", "refused", "note"]) element(id).hidden = true;
  now.conflict = false;
  pages.clear();
  if (now.left) editor.restore(now.left);
  // Read-only until the job's text has arrived.
  else editor.open("", true);
  showJob();
}

function showJob(): void {
  history.replaceState(null, "", `#${encodeURI(now.path)}`);
  element("choose").textContent = now.path;
  sync.update();
  subscribeToJob();
}

/** Follows the list; a restarted program may have given this job another number. */
function receiveJobs(news: JobList): void {
  list = news;
  jobsList.refresh();
  const number = numberOf(now.path);
  if (number === undefined || number === now.job) return;
  now.job = number;
  subscribeToJob();
}

function subscribeToJob(): void {
  stopHearing();
  stopHearing = subscribe(now.job, {
    jobs: receiveJobs,
    view: (view) => {
      if (view.job === now.job && isListedAs(view.job, now.path)) sync.receive(view);
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
element("save").addEventListener("click", () => void sync.save());
document.addEventListener("keydown", (event) => {
  if (event.key !== "s" || !(event.ctrlKey || event.metaKey) || event.defaultPrevented) return;
  event.preventDefault();
  void sync.save();
});
window.addEventListener("beforeunload", (event) => {
  if (sync.isDirty() || [...states.values()].some((one) => one !== now && one.leftUnsaved)) event.preventDefault();
});
window.addEventListener("hashchange", () => openJob(jobOfAddress(list)));
showRefusal(undefined);
showNote(undefined);
panes.to("sheet");
showJob();
