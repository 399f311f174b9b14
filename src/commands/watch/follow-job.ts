import { resolve } from "node:path";
import { pinnedIo } from "../../io/pinned-io.ts";
import { type FileWatch, watchFiles } from "../../io/watch-files.ts";
import type { BenchRequest, BenchView, Entered, EnterRequest } from "./bench-messages.ts";
import { benchOf, enterAtBench } from "./bench-of.ts";
import type { ListedJob } from "./follow-list.ts";
import { readJobText, saveJobText } from "./job-text.ts";
import type { JobView, Outcome, SaveRequest, SaveResult } from "./messages.ts";
import {
  type Preview,
  type PreviewContext,
  type PreviewRequest,
  type RenderedJob,
  renderPreview,
} from "./render-preview.ts";
import type { SerialQueue } from "./serial-queue.ts";

/** A job, re-evaluated at each change of its files while it has listeners. */
export type FollowedJob = {
  /** Calls the listener with the current view and at each change; returns the function that removes it. */
  readonly listen: (listener: (view: JobView) => void) => () => void;
  readonly draft: (text: string) => Promise<Outcome>;
  readonly save: (request: SaveRequest) => SaveResult;
  /** The bench view of a text, and the edit of one entry: nothing is rendered, so neither waits for pages. */
  readonly bench: (request: BenchRequest) => BenchView;
  readonly enter: (request: EnterRequest) => Entered;
  readonly close: () => void;
};

/** Follows one job. Without listeners it watches and renders nothing. */
export function followJob(
  number: number,
  { path: job, real }: ListedJob,
  { queue, ...around }: PreviewContext & { readonly queue: SerialQueue },
): FollowedJob {
  const path = resolve(around.cwd, job);
  const io = pinnedIo(around.resources.io, path, real);
  const context: PreviewContext = { ...around, resources: { ...around.resources, io } };
  const atBench = { job, io, cwd: around.cwd, cache: around.resources.cache };
  const listeners = new Set<(view: JobView) => void>();
  let view: JobView | undefined;
  let lastGood: RenderedJob | undefined;
  const refresh = coalesce(
    async () => {
      await queue.run(async () => {
        files.add(path);
        const saved = readJobText(real, io);
        const preview = await render(saved?.text, "saved");
        lastGood = preview.made ?? lastGood;
        view = { job: number, ...(saved ? { saved } : {}), outcome: outcomeOf(preview, lastGood) };
      });
      if (view) for (const listener of listeners) listener(view);
    },
    () => listeners.size > 0,
  );
  const files = watchInputs(() => void refresh());
  const render = (text: string | undefined, kind: TextKind): Promise<Preview> =>
    files.record(kind, (recordPath) => {
      recordPath(path);
      return renderOrReport({ job, path, ...(text === undefined ? {} : { text }) }, context, recordPath);
    });
  const pause = () => {
    files.stop();
    view = undefined;
  };
  return {
    listen: (listener) => {
      listeners.add(listener);
      files.start();
      if (view) listener(view);
      else void refresh();
      return () => {
        if (listeners.delete(listener) && listeners.size === 0) pause();
      };
    },
    // The last good pages of unsaved text are known to the page alone: here, drafts of several pages meet.
    draft: (text) => queue.run(async () => outcomeOf(await render(text, "draft"))),
    save: (request) => {
      const result = saveJobText(real, request, io);
      files.look();
      return result;
    },
    bench: ({ text, choice }) => benchOf(text, choice, atBench),
    enter: (request) => enterAtBench(request, atBench),
    close: () => {
      listeners.clear();
      pause();
    },
  };
}

type TextKind = "saved" | "draft";

/** Watches the files that the latest saved text and the latest draft have read. */
function watchInputs(onChange: () => void) {
  let watcher: FileWatch | undefined;
  const paths: Record<TextKind, ReadonlySet<string>> = { saved: new Set(), draft: new Set() };
  return {
    start: () => {
      watcher ??= watchFiles(onChange);
    },
    stop: () => {
      watcher?.close();
      watcher = undefined;
    },
    add: (path: string) => watcher?.add(path),
    look: () => watcher?.look(),
    /** Runs a task and replaces the paths of its kind by those that it records. */
    record: async <T>(kind: TextKind, task: (recordPath: (path: string) => void) => Promise<T>): Promise<T> => {
      const recorded = new Set<string>();
      const result = await task((path) => {
        recorded.add(path);
        watcher?.add(path);
      });
      paths[kind] = recorded;
      watcher?.follow([...paths.saved, ...paths.draft]);
      return result;
    },
  };
}

/** Runs a task while `isWanted`, never twice at once; calls during a run lead to one more run. */
function coalesce(task: () => Promise<void>, isWanted: () => boolean): () => Promise<void> {
  let running = false;
  let again = false;
  return async () => {
    again = true;
    if (running) return;
    running = true;
    while (again && isWanted()) {
      again = false;
      await task();
    }
    running = false;
  };
}

const outcomeOf = ({ problems, made, others, shopFile }: Preview, before?: RenderedJob): Outcome => ({
  problems,
  others,
  sheets: (made ?? before)?.sheets ?? [],
  figures: (made ?? before)?.figures ?? "",
  readingPlaces: made?.readingPlaces ?? {},
  outOfDate: made === undefined,
  ...(shopFile === undefined ? {} : { shopFile }),
});

/** Reports an internal error as a problem, so that the server keeps running. */
async function renderOrReport(
  request: PreviewRequest,
  context: PreviewContext,
  recordPath: (path: string) => void,
): Promise<Preview> {
  try {
    return await renderPreview(request, context, recordPath);
  } catch (error) {
    const message = "headsheet itself failed; the job is not at fault";
    const why = error instanceof Error ? error.message : String(error);
    return { problems: [{ severity: "error", code: "headsheet/failed", message, note: why }], others: {} };
  }
}
