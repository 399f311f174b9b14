import fs from "node:fs";
import { syncBuiltinESMExports } from "node:module";
import { afterEach } from "vitest";

const ORIGINAL = { linkSync: fs.linkSync, renameSync: fs.renameSync };

/** What a test does to functions of `node:fs`, undone after it; to be called once a file. */
export function atCalls() {
  afterEach(() => {
    Object.assign(fs, ORIGINAL);
    syncBuiltinESMExports();
  });
  const replace = (name: keyof typeof ORIGINAL, by: (from: fs.PathLike, to: fs.PathLike) => void) => {
    fs[name] = by;
    syncBuiltinESMExports();
  };
  return {
    original: ORIGINAL,
    replace,
    /** Runs `act` once, around the first call whose target ends like this. */
    around: (name: keyof typeof ORIGINAL, when: "before" | "after", act: () => void, target = "") => {
      let done = false;
      replace(name, (from, to) => {
        const now = !done && String(to).endsWith(target);
        done ||= now;
        if (now && when === "before") act();
        ORIGINAL[name](from, to);
        if (now && when === "after") act();
      });
    },
  };
}
