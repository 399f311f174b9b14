import { type FSWatcher, watch } from "node:fs";
import { dirname } from "node:path";
import { type Fingerprint, fingerprint } from "./fingerprint.ts";

/** Files being followed: `add` one more, which is best done before it is read; `follow` these only; `look` at once. */
export type Following = {
  readonly add: (path: string) => void;
  readonly follow: (paths: Iterable<string>) => void;
  readonly look: () => void;
  readonly close: () => void;
};

/** How often is looked without being called: network drives and full watch lists never call [ms]. */
const POLL = 400;
/** From a call to the look: an editor that saves does several things in a row [ms]. */
const SETTLE = 30;
/** A file that changes at every look, such as a log being written, is told no later than this [ms]. */
const LONGEST = 300;

/**
 * Calls `changed` when what stands at one of the paths is another thing than before: written, put in its place, taken away,
 * or come to be. The disk's calls for a path's folder only say when to look; what is told is what the look finds.
 */
export function watchFiles(changed: () => void, { poll = POLL, calls = true } = {}): Following {
  const known = new Map<string, Fingerprint>();
  const folders = new Map<string, FSWatcher | undefined>();
  let timer: NodeJS.Timeout | undefined;
  let restless = 0;

  const differs = (): boolean => {
    let any = false;
    for (const [path, before] of known) {
      const found = fingerprint(path, before);
      if (found.content !== before.content) any = true;
      known.set(path, found);
    }
    return any;
  };
  const look = () => {
    clearTimeout(timer);
    timer = undefined;
    const now = Date.now();
    if (differs()) {
      if (restless === 0) restless = now;
      // Half of a file may be all there is so far: look once more before anything is told.
      if (now - restless < LONGEST) {
        timer = setTimeout(look, SETTLE);
        return;
      }
    } else if (restless === 0) return;
    restless = 0;
    changed();
  };
  const called = () => {
    timer ??= setTimeout(look, SETTLE);
  };
  const hear = (folder: string) => {
    folders.set(folder, undefined);
    try {
      const watcher = watch(folder, { persistent: false }, called);
      // The folder went away, or the system has no more to give: polling goes on.
      watcher.on("error", () => watcher.close());
      folders.set(folder, watcher);
    } catch {
      // The same: polling goes on.
    }
  };
  const every = setInterval(look, poll);
  const add = (path: string) => {
    if (!known.has(path)) known.set(path, fingerprint(path));
    if (calls && !folders.has(dirname(path))) hear(dirname(path));
  };

  return {
    add,
    follow: (paths) => {
      const wanted = new Set(paths);
      for (const path of known.keys()) if (!wanted.has(path)) known.delete(path);
      for (const path of wanted) add(path);
      const near = new Set([...wanted].map((path) => dirname(path)));
      for (const [folder, watcher] of folders) {
        if (near.has(folder)) continue;
        watcher?.close();
        folders.delete(folder);
      }
    },
    look,
    close: () => {
      clearInterval(every);
      clearTimeout(timer);
      for (const watcher of folders.values()) watcher?.close();
    },
  };
}
