import { resolve } from "node:path";
import { type Following, watchFiles } from "../../io/watch-files.ts";
import { readJobText, saveJobText } from "./job-text.ts";
import type { Outcome, Save, Saved, View } from "./messages.ts";
import { type Drawn, type Look, type Means, type PreviewRequest, renderPreview } from "./render-preview.ts";
import type { Turn } from "./serial-queue.ts";

/** A job followed while somebody looks at it. */
export type FollowedJob = {
  /** Calls with the view as it is, and at each change of a file that the job reads; returns how to stop. */
  readonly listen: (listener: (view: View) => void) => () => void;
  readonly draft: (text: string) => Promise<Outcome>;
  readonly save: (asked: Save) => Saved;
  readonly close: () => void;
};

/** Follows one job: nothing is done for it while nobody listens. */
export function followJob(number: number, job: string, means: Means & { readonly turn: Turn }): FollowedJob {
  const path = resolve(means.cwd, job);
  const listeners = new Set<(view: View) => void>();
  let following: Following | undefined;
  let view: View | undefined;
  let good: { readonly saved?: Drawn; readonly latest?: Drawn } = {};
  let asked: { readonly saved: ReadonlySet<string>; readonly draft: ReadonlySet<string> } = {
    saved: new Set(),
    draft: new Set(),
  };
  let looking = false;
  let again = false;

  /** Looks at a text; what it led to is followed from now on, beside what the other kind of text leads to. */
  const look = async (text: string | undefined, kind: "saved" | "draft"): Promise<Look> => {
    const noted = new Set([path]);
    following?.add(path);
    const found = await lookSurely({ job, path, ...(text === undefined ? {} : { text }) }, means, (one) => {
      noted.add(one);
      following?.add(one);
    });
    asked = { ...asked, [kind]: noted };
    following?.follow([...asked.saved, ...asked.draft]);
    return found;
  };

  const refresh = async () => {
    again = true;
    if (looking) return;
    looking = true;
    while (again && listeners.size > 0) {
      again = false;
      await means.turn.take(async () => {
        following?.add(path);
        const saved = readJobText(path, means.kit.io);
        const found = await look(saved?.text, "saved");
        if (found.made) good = { saved: found.made, latest: found.made };
        view = { job: number, ...(saved ? { saved } : {}), outcome: outcomeOf(found, good.saved) };
      });
      if (view) for (const listener of listeners) listener(view);
    }
    looking = false;
  };

  const rest = () => {
    following?.close();
    following = undefined;
    view = undefined;
  };
  return {
    listen: (listener) => {
      listeners.add(listener);
      following ??= watchFiles(() => void refresh());
      if (view) listener(view);
      else void refresh();
      return () => {
        if (listeners.delete(listener) && listeners.size === 0) rest();
      };
    },
    draft: (text) =>
      means.turn.take(async () => {
        const found = await look(text, "draft");
        if (found.made) good = { ...good, latest: found.made };
        return outcomeOf(found, good.latest);
      }),
    save: (wanted) => {
      const saved = saveJobText(path, wanted, means.kit.io);
      following?.look();
      return saved;
    },
    close: () => {
      listeners.clear();
      rest();
    },
  };
}

const outcomeOf = ({ problems, made, shopFile }: Look, before: Drawn | undefined): Outcome => ({
  problems,
  sheets: (made ?? before)?.sheets ?? [],
  figures: (made ?? before)?.figures ?? "",
  outOfDate: made === undefined,
  ...(shopFile === undefined ? {} : { shopFile }),
});

/** A fault of our own is shown like a job's, and the page lives on. */
async function lookSurely(looked: PreviewRequest, means: Means, note: (path: string) => void): Promise<Look> {
  try {
    return await renderPreview(looked, means, note);
  } catch (error) {
    const message = "headsheet itself failed; the job is not at fault";
    const why = error instanceof Error ? error.message : String(error);
    return { problems: [{ severity: "error", code: "headsheet/failed", message, note: why }] };
  }
}
