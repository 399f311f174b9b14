import { disk } from "../../io/disk.ts";
import { askedOnce } from "./asked-once.ts";
import type { Done, Share } from "./share.ts";
import { workOutShare } from "./work-out-share.ts";

/** So many are handed over at once: each time costs a moment of both threads. */
const TOGETHER = 32;

/** What a thread does for a shelf, a few files at a time. */
export function* run(share: Share): Generator<Done> {
  let done: Done[number][] = [];
  for (const { index, kept } of workOutShare(share, askedOnce(disk))) {
    done.push([index, kept]);
    if (done.length < TOGETHER) continue;
    yield done;
    done = [];
  }
  yield done;
}
