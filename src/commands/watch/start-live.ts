import { openPageRenderer, type PageRenderer } from "../../raster/page-renderer.ts";
import type { Environment } from "../environment.ts";
import { openResources } from "../open-resources.ts";
import { type FollowedJob, followJob } from "./follow-job.ts";
import { followList } from "./follow-list.ts";
import { createJobFacts } from "./job-facts.ts";
import { newToken } from "./lasting-address.ts";
import { makeSheets } from "./make-sheets.ts";
import { createJobFile } from "./new-job-file.ts";
import { type Limits, openServer } from "./open-server.ts";
import { loadPageFiles } from "./page-files.ts";
import { createRoutes } from "./routes.ts";
import { createSerialQueue } from "./serial-queue.ts";
import { createSheetCache } from "./sheet-cache.ts";

type LiveOptions = {
  readonly port?: number;
  /** Secret part of the path; random unless given. */
  readonly token?: string;
  readonly limits?: Limits;
};

/** The running server of the live page. */
export type LiveServer = {
  readonly address: string;
  readonly port: number;
  readonly token: string;
  readonly close: () => Promise<void>;
};

/** Starts the live page of the jobs; the only files it writes are jobs that the user saves or starts, and the sheets that the user makes. */
export async function startLive(
  asked: readonly string[],
  options: LiveOptions,
  world: Environment,
): Promise<LiveServer> {
  const list = followList(asked, world);
  const token = options.token ?? newToken();
  const followed = new Map<number, FollowedJob>();
  try {
    const resources = openResources(world);
    let opened: Promise<PageRenderer> | undefined;
    const renderer = () => {
      opened ??= openPageRenderer();
      return opened;
    };
    const sheets = createSheetCache();
    const queue = createSerialQueue();
    const jobs = (number: number): FollowedJob | undefined => {
      const listed = list.jobOf(number);
      if (!listed) return undefined;
      const job = followed.get(number) ?? followJob(number, listed, { resources, sheets, cwd: world.cwd, queue });
      followed.set(number, job);
      return job;
    };
    const files = loadPageFiles(world.home, world.io, resources.fonts);
    const handle = createRoutes({
      files,
      list,
      facts: createJobFacts(list, world),
      jobs,
      sheets,
      renderer,
      queue,
      create: (job) => createJobFile(job, list.now().jobs[0]?.path ?? "jobs/new.yaml", world),
      make: (path) => makeSheets(path, world),
    });
    const server = await openServer(options.port, token, handle, options.limits);
    return {
      address: `http://127.0.0.1:${server.port}/${token}/`,
      port: server.port,
      token,
      close: async () => {
        list.close();
        for (const job of followed.values()) job.close();
        await server.close();
        await queue.run(async () => (await opened)?.close());
      },
    };
  } catch (error) {
    list.close();
    throw error;
  }
}
