import { randomBytes } from "node:crypto";
import type { PageRenderer } from "../../raster/page-renderer.ts";
import { type Answer, jsonAnswer, pagePolicy, textAnswer } from "./answer.ts";
import type { MakeResult, NewJob, NewJobResult } from "./bench-messages.ts";
import { isBench, isEnter } from "./bench-request.ts";
import type { FollowedJob } from "./follow-job.ts";
import type { FollowedList } from "./follow-list.ts";
import type { PageRequest } from "./guard-request.ts";
import type { Draft, JobFacts, SaveRequest } from "./messages.ts";
import { isNewJob } from "./new-job-file.ts";
import type { PageFile } from "./page-files.ts";
import type { SerialQueue } from "./serial-queue.ts";
import type { CachedSheet, SheetCache } from "./sheet-cache.ts";

/** Dependencies of the request handlers. */
type RouteContext = {
  readonly files: ReadonlyMap<string, PageFile>;
  readonly list: FollowedList;
  readonly facts: () => readonly JobFacts[];
  readonly jobs: (number: number) => FollowedJob | undefined;
  readonly sheets: SheetCache;
  /** Loads the renderer at the first call. */
  readonly renderer: () => Promise<PageRenderer>;
  readonly queue: SerialQueue;
  /** Writes a new job beside a job. */
  readonly create: (asked: NewJob) => NewJobResult;
  /** Makes the sheets of a job as `make` does. */
  readonly make: (path: string) => Promise<MakeResult>;
};

/** Resolutions at which pages are rendered [dots an inch]; the page uses the next above its screen's. */
const DPIS: ReadonlySet<string> = new Set(["72", "100", "150", "200", "300"]);
/** Upper limits of open event streams and of queued drafts: more than a few browser tabs need. */
const MOST_STREAMS = 24;
const MOST_WAITING = 8;

/** Handles the requests that the guard has accepted. */
export function createRoutes(
  context: RouteContext,
): (request: PageRequest, body: () => Promise<unknown>) => Promise<Answer> {
  const streamEvents = createEventStreams(context.list);
  const get = ({ path, query }: PageRequest): Answer | Promise<Answer> => {
    const file = context.files.get(path);
    if (file) return path === "" ? pageAnswer(file) : { kind: "bytes", ...file };
    if (path === "jobs.json") return jsonAnswer(context.list.now());
    if (path === "facts.json") return jsonAnswer(context.facts());
    const [, number] = /^jobs\/(\d{1,4})\/events$/.exec(path) ?? [];
    const job = number === undefined ? undefined : context.jobs(Number(number));
    if (job) return streamEvents(job);
    const [, id, page, pdfId] = /^sheets\/(?:([0-9a-f]{32})\/(\d{1,2})\.png|([0-9a-f]{32})\.pdf)$/.exec(path) ?? [];
    if (id !== undefined) return pictureAnswer(context, id, Number(page), query.get("dpi") ?? "");
    return pdfId === undefined ? NOT_FOUND : pdfAnswer(context.sheets.get(pdfId));
  };
  return async (request, body) => (request.method === "POST" ? post(context, request, body) : get(request));
}

/** Streams the job list and a job's views, to a limited number of clients. */
function createEventStreams(list: FollowedList): (job: FollowedJob) => Answer {
  let streams = 0;
  return (job) => {
    if (streams >= MOST_STREAMS) return textAnswer(503, "too many pages are open");
    return {
      kind: "events",
      start: (send) => {
        streams++;
        send("jobs", list.now());
        const stops = [list.listen((now) => send("jobs", now)), job.listen((view) => send("view", view))];
        return () => {
          streams--;
          for (const stop of stops) stop();
        };
      },
    };
  };
}

async function pictureAnswer(
  { sheets, queue, renderer }: RouteContext,
  id: string,
  page: number,
  dpi: string,
): Promise<Answer> {
  const sheet = sheets.get(id);
  if (!sheet || !DPIS.has(dpi) || page < 1 || page > sheet.pages) return NOT_FOUND;
  const bytes = await queue.run(async () => (await renderer()).renderPng(sheet.pdf, page - 1, Number(dpi)));
  return { kind: "bytes", type: "image/png", bytes };
}

function pdfAnswer(sheet: CachedSheet | undefined): Answer {
  if (!sheet) return NOT_FOUND;
  const headers = {
    "Content-Disposition": `inline; filename="${sheet.name}"`,
    // The browser's PDF viewer needs its own styles and frame.
    "Content-Security-Policy": "frame-ancestors 'none'",
  };
  return { kind: "bytes", type: "application/pdf", bytes: sheet.pdf, headers };
}

/** Evaluates a draft or saves a text. */
async function post(
  { files, list, jobs, queue, create, make }: RouteContext,
  { path }: PageRequest,
  body: () => Promise<unknown>,
): Promise<Answer> {
  if (path === "jobs") {
    const asked = await body();
    return isNewJob(asked) ? jsonAnswer(create(asked)) : textAnswer(400, "that is no new job");
  }
  const [, number, action] = /^jobs\/(\d{1,4})\/(draft|save|bench|enter|make)$/.exec(path) ?? [];
  const job = number === undefined ? undefined : jobs(Number(number));
  if (!job) return files.has(path) ? textAnswer(405, "this cannot be done here", { Allow: "GET, HEAD" }) : NOT_FOUND;
  const request = await body();
  if (isDraft(request) && request.path !== undefined && request.path !== list.jobOf(Number(number))?.path)
    return textAnswer(409, "another job has this number now");
  if (action === "save")
    return isSave(request) ? jsonAnswer(job.save(request)) : textAnswer(400, "that is no text to save");
  if (!isDraft(request)) return textAnswer(400, "that is no text to look at");
  if (action === "make") return jsonAnswer(await queue.run(() => make(list.jobOf(Number(number))!.path)));
  if (action === "bench" || action === "enter") {
    if (action === "enter" && isEnter(request)) return jsonAnswer(job.enter(request));
    return action === "bench" && isBench(request)
      ? jsonAnswer(job.bench(request))
      : textAnswer(400, "that is no entry");
  }
  if (queue.waiting() >= MOST_WAITING) return textAnswer(503, "too much at once: try again");
  return jsonAnswer(await job.draft(request.text));
}

const NOT_FOUND = textAnswer(404, "nothing is here");

/** The page with a fresh nonce, which permits the editor's styles. */
function pageAnswer({ type, bytes }: PageFile): Answer {
  const nonce = randomBytes(16).toString("base64");
  const headers = { "Content-Security-Policy": pagePolicy(nonce) };
  return { kind: "bytes", type, bytes: String(bytes).replace("{nonce}", nonce), headers };
}

const isDraft = (value: unknown): value is Draft =>
  typeof value === "object" &&
  value !== null &&
  typeof (value as Draft).text === "string" &&
  ["string", "undefined"].includes(typeof (value as Draft).path);
const isSave = (value: unknown): value is SaveRequest => {
  const over = (value as SaveRequest | null)?.over;
  return isDraft(value) && (over === undefined || typeof over === "string");
};
