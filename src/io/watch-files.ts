import { type FSWatcher, watch } from "node:fs";
import { dirname } from "node:path";
import { type Fingerprint, fingerprint } from "./fingerprint.ts";

/** Watched files: `add` one more, before it is read; `follow` these only; `look` at once. */
export type FileWatch = {
  readonly add: (path: string) => void;
  readonly follow: (paths: Iterable<string>) => void;
  readonly look: () => void;
  readonly close: () => void;
};

/** Interval of polling, for network drives and exhausted watch lists, which send no events [ms]. */
const POLL = 400;
/** Delay from an event to the check: an editor that saves does several things in a row [ms]. */
const SETTLE = 30;
/** A file that changes at every check, such as a log, is reported after this at the latest [ms]. */
const LONGEST = 300;

/**
 * Calls `changed` when the content at one of the paths differs from before: written, replaced, removed or created. Events of
 * the folders only trigger a check; fingerprints decide.
 */
export function watchFiles(changed: () => void, { poll = POLL, calls = true } = {}): FileWatch {
  const fingerprints = new Map<string, Fingerprint>();
  let timer: NodeJS.Timeout | undefined;
  let changingSince = 0;

  const look = () => {
    clearTimeout(timer);
    timer = undefined;
    const now = Date.now();
    if (refresh(fingerprints)) {
      if (changingSince === 0) changingSince = now;
      // The file may be half written: check once more before reporting.
      if (now - changingSince < LONGEST) {
        timer = setTimeout(look, SETTLE);
        return;
      }
    } else if (changingSince === 0) return;
    changingSince = 0;
    changed();
  };
  const folders = watchFolders(() => {
    timer ??= setTimeout(look, SETTLE);
  });
  const add = (path: string) => {
    if (!fingerprints.has(path)) fingerprints.set(path, fingerprint(path));
    if (calls) folders.add(dirname(path));
  };
  const polling = setInterval(look, poll);

  return {
    add,
    follow: (paths) => {
      const wanted = new Set(paths);
      for (const path of fingerprints.keys()) if (!wanted.has(path)) fingerprints.delete(path);
      for (const path of wanted) add(path);
      folders.keepOnly(new Set([...wanted].map((path) => dirname(path))));
    },
    look,
    close: () => {
      clearInterval(polling);
      clearTimeout(timer);
      folders.keepOnly(new Set());
    },
  };
}

/** Takes all fingerprints anew; whether any content changed. */
function refresh(fingerprints: Map<string, Fingerprint>): boolean {
  let any = false;
  for (const [path, before] of fingerprints) {
    const found = fingerprint(path, before);
    if (found.content !== before.content) any = true;
    fingerprints.set(path, found);
  }
  return any;
}

/** Native watchers of folders. A folder that cannot be watched is left to polling. */
function watchFolders(onEvent: () => void) {
  const watchers = new Map<string, FSWatcher | undefined>();
  return {
    add: (folder: string) => {
      if (watchers.has(folder)) return;
      watchers.set(folder, undefined);
      try {
        const watcher = watch(folder, { persistent: false }, onEvent);
        // The folder was removed, or the system's watch list is full.
        watcher.on("error", () => watcher.close());
        watchers.set(folder, watcher);
      } catch {
        // The same.
      }
    },
    keepOnly: (wanted: ReadonlySet<string>) => {
      for (const [folder, watcher] of watchers) {
        if (wanted.has(folder)) continue;
        watcher?.close();
        watchers.delete(folder);
      }
    },
  };
}
