import { linkSync, rmSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { makeFolder } from "./make-folder.ts";
import { withErrorPath, writeTemporary } from "./temporary-file.ts";

/** Creates a file atomically, with its parent folders. Returns false and changes nothing if the path exists. */
export const createFile = (path: string, text: string): boolean =>
  withErrorPath(path, () => {
    const folder = dirname(path);
    makeFolder(folder);
    const temporary = writeTemporary(folder, new TextEncoder().encode(text));
    try {
      // A hard link is created only if the name is free.
      linkSync(temporary, path);
      return true;
    } catch (failure) {
      if ((failure as NodeJS.ErrnoException).code === "EEXIST") return false;
      if (isWithoutLinks(failure)) return createWithoutLinks(path, text);
      throw failure;
    } finally {
      rmSync(temporary, { force: true });
    }
  });

/** Whether creating a hard link failed because it is not possible here. */
export const isWithoutLinks = (failure: unknown): boolean =>
  ["EPERM", "ENOSYS", "ENOTSUP", "EOPNOTSUPP"].includes((failure as NodeJS.ErrnoException).code ?? "");

/** For file systems without hard links, such as memory sticks: writes in place. */
function createWithoutLinks(path: string, text: string): boolean {
  try {
    writeFileSync(path, text, { flag: "wx", flush: true });
    return true;
  } catch (failure) {
    if ((failure as NodeJS.ErrnoException).code === "EEXIST") return false;
    rmSync(path, { force: true });
    throw failure;
  }
}
