import { randomBytes } from "node:crypto";
import type { Viewer } from "../../raster/open-viewer.ts";
import { type Answer, inJson, inText, pagePolicy } from "./answer.ts";
import type { FollowedJob } from "./follow-job.ts";
import type { FollowedList } from "./follow-list.ts";
import type { Passed } from "./guard-request.ts";
import type { Draft, Save } from "./messages.ts";
import type { PageFile } from "./page-files.ts";
import type { Turn } from "./serial-queue.ts";
import type { Shelf } from "./sheet-shelf.ts";

/** What the page can ask for. */
export type Served = {
  readonly files: ReadonlyMap<string, PageFile>;
  readonly list: FollowedList;
  readonly jobs: (number: number) => FollowedJob | undefined;
  readonly shelf: Shelf;
  /** Loaded when the first page is asked for. */
  readonly viewer: () => Promise<Viewer>;
  readonly turn: Turn;
};

/** Dots an inch at which pages are drawn: the page asks for the next that its screen can show. */
const DPIS: ReadonlySet<string> = new Set(["72", "100", "150", "200", "300"]);
/** Readers of events, and texts waiting to be looked at: more than a few pages in a browser come to. */
const STREAMS = 24;
const WAITING = 8;

/** Answers one request after another that the gate let in. */
export function routes(served: Served): (passed: Passed, body: () => Promise<unknown>) => Promise<Answer> {
  let streams = 0;
  const { files, list, jobs, shelf, viewer, turn } = served;

  const events = (job: FollowedJob): Answer => {
    if (streams >= STREAMS) return inText(503, "too many pages are open");
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

  const picture = async (id: string, page: number, dpi: string): Promise<Answer> => {
    const sheet = shelf.get(id);
    if (!sheet || !DPIS.has(dpi) || page < 1 || page > sheet.pages) return NOTHING;
    const bytes = await turn.take(async () => (await viewer()).picture(sheet.pdf, page - 1, Number(dpi)));
    return { kind: "bytes", type: "image/png", bytes };
  };

  const pdf = (id: string): Answer => {
    const sheet = shelf.get(id);
    if (!sheet) return NOTHING;
    const headers = {
      "Content-Disposition": `inline; filename="${sheet.name}"`,
      // The browser's own reader of PDFs needs styles and a frame of its own.
      "Content-Security-Policy": "frame-ancestors 'none'",
    };
    return { kind: "bytes", type: "application/pdf", bytes: sheet.pdf, headers };
  };

  const look = ({ path, query }: Passed): Answer | Promise<Answer> => {
    const file = files.get(path);
    if (file) return path === "" ? pageItself(file) : { kind: "bytes", ...file };
    const [, number] = /^jobs\/(\d{1,4})\/events$/.exec(path) ?? [];
    const job = number === undefined ? undefined : jobs(Number(number));
    if (job) return events(job);
    const [, id, page, pdfId] = /^sheets\/(?:([0-9a-f]{32})\/(\d{1,2})\.png|([0-9a-f]{32})\.pdf)$/.exec(path) ?? [];
    if (id !== undefined) return picture(id, Number(page), query.get("dpi") ?? "");
    return pdfId === undefined ? NOTHING : pdf(pdfId);
  };

  const act = async ({ path }: Passed, body: () => Promise<unknown>): Promise<Answer> => {
    const [, number, deed] = /^jobs\/(\d{1,4})\/(draft|save)$/.exec(path) ?? [];
    const job = number === undefined ? undefined : jobs(Number(number));
    if (!job) return files.has(path) ? inText(405, "this cannot be done here", { Allow: "GET, HEAD" }) : NOTHING;
    const asked = await body();
    if (deed === "save") return isSave(asked) ? inJson(job.save(asked)) : inText(400, "that is no text to save");
    if (!isDraft(asked)) return inText(400, "that is no text to look at");
    if (turn.waiting() >= WAITING) return inText(503, "too much at once: try again");
    return inJson(await job.draft(asked.text));
  };

  return async (passed, body) => (passed.method === "POST" ? act(passed, body) : look(passed));
}

const NOTHING = inText(404, "nothing is here");

/** The page with a fresh nonce, by which the editor's own styles are known. */
function pageItself({ type, bytes }: PageFile): Answer {
  const nonce = randomBytes(16).toString("base64");
  const headers = { "Content-Security-Policy": pagePolicy(nonce) };
  return { kind: "bytes", type, bytes: String(bytes).replace("{nonce}", nonce), headers };
}

const isDraft = (value: unknown): value is Draft =>
  typeof value === "object" && value !== null && typeof (value as Draft).text === "string";
const isSave = (value: unknown): value is Save => {
  const over = (value as Save | null)?.over;
  return isDraft(value) && (over === undefined || typeof over === "string");
};
