import { createHash } from "node:crypto";
import { memoize } from "../util/memoize.ts";

type Size = { readonly width: number; readonly height: number };

/** A photo at fewer pixels; undefined where there is nothing to be seen in it. */
export type Downscale = (bytes: Uint8Array, target: Size) => Promise<Uint8Array | undefined>;

/** Photos of a job, on a sheet for print and on one for the mailbox. */
const MOST = 24;

/** `downscalePhoto`, memoised: several sheets of a job show a photo, and a live page draws them again and again. */
export const createDownscale = (): Downscale =>
  memoize(
    async (bytes: Uint8Array, target: Size) => {
      const { downscalePhoto } = await import("./downscale-photo.ts");
      return downscalePhoto(bytes, target);
    },
    {
      max: MOST,
      key: (bytes, { width, height }) => `${createHash("sha256").update(bytes).digest("hex")} ${width} ${height}`,
    },
  );
