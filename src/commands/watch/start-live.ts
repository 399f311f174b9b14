import { randomBytes } from "node:crypto";
import { openViewer, type Viewer } from "../../raster/open-viewer.ts";
import type { Environment } from "../environment.ts";
import { openResources } from "../open-resources.ts";
import { type FollowedJob, followJob } from "./follow-job.ts";
import { followList } from "./follow-list.ts";
import { type Limits, openServer } from "./open-server.ts";
import { pageFiles } from "./page-files.ts";
import { routes } from "./routes.ts";
import { serialQueue } from "./serial-queue.ts";
import { sheetShelf } from "./sheet-shelf.ts";

export type LiveOptions = {
  readonly port?: number;
  /** The part of the address that nobody can guess. */
  readonly token?: string;
  readonly limits?: Limits;
};

/** The live page, being served. */
export type Live = { readonly address: string; readonly close: () => Promise<void> };

/** Starts serving the live page of the jobs; writes nothing but what somebody saves on it. */
export async function startLive(asked: readonly string[], options: LiveOptions, world: Environment): Promise<Live> {
  const list = followList(asked, world);
  const token = options.token ?? randomBytes(24).toString("base64url");
  const followed = new Map<number, FollowedJob>();
  try {
    const kit = openResources(world);
    let opened: Promise<Viewer> | undefined;
    const viewer = () => {
      opened ??= openViewer();
      return opened;
    };
    const shelf = sheetShelf();
    const turn = serialQueue();
    const jobs = (number: number): FollowedJob | undefined => {
      const path = list.pathOf(number);
      if (path === undefined) return undefined;
      const job = followed.get(number) ?? followJob(number, path, { kit, shelf, cwd: world.cwd, turn });
      followed.set(number, job);
      return job;
    };
    const files = pageFiles(world.home, world.io, kit.fonts);
    const answering = routes({ files, list, jobs, shelf, viewer, turn });
    const server = await openServer(options.port, token, answering, options.limits);
    return {
      address: `http://127.0.0.1:${server.port}/${token}/`,
      close: async () => {
        list.close();
        for (const job of followed.values()) job.close();
        await server.close();
        await turn.take(async () => (await opened)?.close());
      },
    };
  } catch (error) {
    list.close();
    throw error;
  }
}
