import type {
  BenchRequest,
  BenchView,
  Entered,
  EnterRequest,
  MakeResult,
  NewJob,
  NewJobResult,
} from "../bench-messages.ts";
import type { Draft, JobFacts, JobList, JobView, Outcome, SaveRequest, SaveResult } from "../messages.ts";

/** Handlers of the server's events. */
type JobEvents = {
  readonly jobs: (list: JobList) => void;
  readonly view: (view: JobView) => void;
  /** Whether the server responds. */
  readonly there: (is: boolean) => void;
};

/** Delay before reconnecting after the browser has given up [ms]. */
const RETRY_DELAY = 1000;

/**
 * Subscribes to a job's events; returns the function that unsubscribes. Reconnects after a failure, and then receives the whole view.
 * Disconnects while the page is hidden, as a browser allows six connections for all tabs of one server.
 */
export function subscribe(job: number, events: JobEvents): () => void {
  let source: EventSource | undefined;
  let retry: number | undefined;
  const disconnect = () => {
    source?.close();
    source = undefined;
    clearTimeout(retry);
  };
  const connect = () => {
    disconnect();
    const current = new EventSource(`jobs/${job}/events`);
    source = current;
    current.onopen = () => events.there(true);
    current.addEventListener("jobs", ({ data }) => events.jobs(JSON.parse(data)));
    current.addEventListener("view", ({ data }) => events.view(JSON.parse(data)));
    current.onerror = () => {
      events.there(false);
      if (current.readyState === EventSource.CLOSED) retry = window.setTimeout(connect, RETRY_DELAY);
    };
  };
  const onVisibility = () => (document.visibilityState === "hidden" ? disconnect() : connect());
  document.addEventListener("visibilitychange", onVisibility);
  onVisibility();
  return () => {
    document.removeEventListener("visibilitychange", onVisibility);
    disconnect();
  };
}

/** Evaluates unsaved text; undefined if the server is busy or does not respond. */
export const postDraft = (job: number, draft: Draft): Promise<Outcome | undefined> => post(`jobs/${job}/draft`, draft);

/** Saves a text; undefined if the server does not respond. */
export const postSave = (job: number, save: SaveRequest): Promise<SaveResult | undefined> =>
  post(`jobs/${job}/save`, save);

/** The bench view of a text, and the edit of one entry; undefined if the server does not respond. */
export const postBench = (job: number, request: BenchRequest): Promise<BenchView | undefined> =>
  post(`jobs/${job}/bench`, request);
export const postEnter = (job: number, request: EnterRequest): Promise<Entered | undefined> =>
  post(`jobs/${job}/enter`, request);

/** Writes a new job, and makes a job's sheets; undefined if the server does not respond. */
export const postNewJob = (asked: NewJob): Promise<NewJobResult | undefined> => post("jobs", asked);
export const postMake = (job: number, path: string): Promise<MakeResult | undefined> =>
  post(`jobs/${job}/make`, { text: "", path });

/** The list of jobs, and what it shows of each; undefined if the server does not respond. */
export const fetchJobs = (): Promise<JobList | undefined> => get("jobs.json");
export const fetchFacts = (): Promise<readonly JobFacts[] | undefined> => get("facts.json");

async function get<T>(path: string): Promise<T | undefined> {
  try {
    const answer = await fetch(path);
    return answer.ok ? ((await answer.json()) as T) : undefined;
  } catch {
    return undefined;
  }
}

async function post<T>(path: string, body: unknown): Promise<T | undefined> {
  try {
    const headers = { "Content-Type": "application/json" };
    const answer = await fetch(path, { method: "POST", headers, body: JSON.stringify(body) });
    return answer.ok ? ((await answer.json()) as T) : undefined;
  } catch {
    return undefined;
  }
}
