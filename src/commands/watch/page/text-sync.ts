import type { JobText, JobView } from "../messages.ts";
import { showConflict } from "./conflict.ts";
import { postSave } from "./connection.ts";
import type { Editor } from "./editor.ts";
import { element } from "./element.ts";
import type { JobState } from "./job-state.ts";
import type { KeptTexts } from "./kept-texts.ts";
import { mergeLines } from "./merge-lines.ts";

/** Keeps the text of the editor and that of the file in step. */
type TextSync = {
  readonly receive: (view: JobView) => void;
  readonly save: () => Promise<void>;
  readonly isDirty: () => boolean;
  /** Shows whether the text is saved, and keeps it in the browser while it is not. */
  readonly update: () => void;
};

type TextSyncOptions = {
  readonly editor: Editor;
  readonly current: () => JobState;
  readonly kept: KeptTexts;
  /** Evaluates the text anew. */
  readonly refresh: () => void;
  readonly showEditor: () => void;
};

const MERGED = "The file changed elsewhere, on other lines: those changes stand here beside yours.";

export function createTextSync({ editor, current, kept, refresh, showEditor }: TextSyncOptions): TextSync {
  const isDirty = () => current().loaded && editor.text() !== (current().base?.text ?? "");
  const isGone = () => current().view !== undefined && !current().view!.saved && current().base !== undefined;

  const update = () => {
    const now = current();
    showState(stateWords(now, isDirty(), isGone()), isDirty());
    if (!now.loaded) return;
    if (isDirty()) kept.keep(now.path, { text: editor.text(), ...(now.base ? { base: now.base } : {}) });
    else kept.forget(now.path);
  };
  const settle = (base: JobText | undefined) => {
    current().base = base;
    current().conflict = false;
    element("conflict").hidden = true;
    update();
  };
  /** Puts the file's changes into the text, where they are on other lines; returns whether they could be. */
  const merge = (theirs: JobText): boolean => {
    const base = current().base?.text;
    const merged = base === undefined ? undefined : mergeLines(base, editor.text(), theirs.text);
    if (merged === undefined) return false;
    current().base = theirs;
    editor.replace(merged, "outside");
    settle(theirs);
    if (merged !== theirs.text) showNote(MERGED);
    return true;
  };
  const openConflict = (theirs: JobText | undefined) => {
    current().conflict = true;
    if (theirs) showEditor();
    showConflict(element("conflict"), {
      mine: editor.text(),
      ...(theirs ? { theirs } : {}),
      takeTheirs: () => {
        if (!theirs) return;
        current().base = theirs;
        editor.replace(theirs.text, "here");
        settle(theirs);
        editor.focus();
        refresh();
      },
      keepMine: () => {
        settle(theirs);
        void save();
        editor.focus();
      },
    });
    update();
  };
  const open = (saved: JobText | undefined) => {
    const now = current();
    const unsaved = saved?.why === undefined ? kept.find(now.path) : undefined;
    now.base = unsaved ? unsaved.base : saved;
    editor.open(now.base?.text ?? "", saved?.why !== undefined);
    now.loaded = true;
    if (unsaved) editor.replace(unsaved.text, "here");
    showRefusal(saved?.why);
  };
  const receive = (view: JobView) => {
    const now = current();
    now.view = view;
    const { saved } = view;
    if (!now.loaded) open(saved);
    if (saved?.stamp === now.base?.stamp) {
      if (now.conflict) settle(now.base);
    } else if (saved && saved.text === editor.text()) settle(saved);
    else if (saved && !isDirty()) {
      now.base = saved;
      editor.replace(saved.text, "outside");
      settle(saved);
      showRefusal(undefined);
    } else if (!saved || !merge(saved)) openConflict(saved);
    update();
    refresh();
  };
  const save = async (): Promise<void> => {
    const now = current();
    if (!now.loaded || now.base?.why !== undefined) return;
    if (now.conflict) {
      element("conflict-title").focus();
      return;
    }
    const text = editor.text();
    if (!isDirty() && now.base) return;
    const { job, path } = now;
    const result = await postSave(job, { text, path, ...(now.base ? { over: now.base.stamp } : {}) });
    if (!result) showRefusal("the program does not answer: nothing was saved");
    else if (result.kind === "refused") showRefusal(result.why);
    else if (result.kind === "saved") {
      if (now !== current()) {
        now.base = { text, stamp: result.stamp };
        now.leftUnsaved = false;
        kept.forget(path);
        return;
      }
      settle({ text, stamp: result.stamp });
      showNote(undefined);
      showRefusal(
        result.otherVersion === undefined
          ? undefined
          : `Another program saved this file in the same moment. What it saved is kept beside it as ${result.otherVersion}.`,
      );
    } else if (now === current()) {
      if (result.theirs && merge(result.theirs)) return save();
      openConflict(result.theirs);
      element("conflict-title").focus();
    }
  };
  return { receive, save, isDirty, update };
}

function stateWords({ loaded, conflict, base }: JobState, dirty: boolean, gone: boolean): string {
  if (!loaded) return "being read";
  if (gone) return "the file is gone";
  if (conflict) return "not saved: the file has changed";
  if (dirty) return "not saved yet";
  return base ? "saved" : "no file";
}

function showState(words: string, dirty: boolean): void {
  const state = element("state");
  if (state.textContent !== words) state.textContent = words;
  state.classList.toggle("unsaved", words !== "saved" && words !== "being read");
  const button = element<HTMLButtonElement>("save");
  button.disabled = !dirty;
  button.classList.toggle("first", dirty);
}

export const showRefusal = (why: string | undefined): void => show("refused", why);
export const showNote = (words: string | undefined): void => show("note", words);

function show(id: string, words: string | undefined): void {
  element(id).hidden = words === undefined;
  if (element(id).textContent !== (words ?? "")) element(id).textContent = words ?? "";
}
