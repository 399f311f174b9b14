import type { Draft, JobList, Outcome, Save, Saved, View } from "../messages.ts";

/** Where the program's news go. */
export type News = {
  readonly jobs: (list: JobList) => void;
  readonly view: (view: View) => void;
  /** Whether the program answers. */
  readonly there: (is: boolean) => void;
};

/** From a line that the browser gave up to the next try [ms]. */
const RETRY = 1000;

/**
 * Hears the program's news of one job until stopped. A line that breaks is taken up again, and with it comes the whole view. A page that
 * nobody sees gives its line back: a browser has six for all pages of one program.
 */
export function hear(job: number, news: News): () => void {
  let source: EventSource | undefined;
  let retry: number | undefined;
  const end = () => {
    source?.close();
    source = undefined;
    clearTimeout(retry);
  };
  const begin = () => {
    end();
    const mine = new EventSource(`jobs/${job}/events`);
    source = mine;
    mine.onopen = () => news.there(true);
    mine.addEventListener("jobs", ({ data }) => news.jobs(JSON.parse(data)));
    mine.addEventListener("view", ({ data }) => news.view(JSON.parse(data)));
    mine.onerror = () => {
      news.there(false);
      if (mine.readyState === EventSource.CLOSED) retry = window.setTimeout(begin, RETRY);
    };
  };
  const seen = () => (document.visibilityState === "hidden" ? end() : begin());
  document.addEventListener("visibilitychange", seen);
  seen();
  return () => {
    document.removeEventListener("visibilitychange", seen);
    end();
  };
}

/** Asks what comes of unsaved text; undefined when the program is busy or gone. */
export const askDraft = (job: number, draft: Draft): Promise<Outcome | undefined> => post(`jobs/${job}/draft`, draft);

/** Asks to save; undefined when the program is gone. */
export const askSave = (job: number, save: Save): Promise<Saved | undefined> => post(`jobs/${job}/save`, save);

async function post<T>(path: string, body: unknown): Promise<T | undefined> {
  try {
    const headers = { "Content-Type": "application/json" };
    const answer = await fetch(path, { method: "POST", headers, body: JSON.stringify(body) });
    return answer.ok ? ((await answer.json()) as T) : undefined;
  } catch {
    return undefined;
  }
}
