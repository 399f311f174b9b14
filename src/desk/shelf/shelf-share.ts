import { disk } from "../../io/disk.ts";
import { askedOnce } from "./asked-once.ts";
import type { Done, Share } from "./share.ts";
import { workOutShare } from "./work-out-share.ts";

/** What a thread does for a shelf. */
export const run = (share: Share): Done => [...workOutShare(share, askedOnce(disk))];
