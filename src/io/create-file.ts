import { linkSync, mkdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { writeTemporary, writing } from "./temporary-file.ts";

/** Writes a new file whole, with the folders it wants; false, and nothing touched, when something stands there. */
export const createFile = (path: string, text: string): boolean =>
  writing(path, () => {
    const folder = dirname(path);
    mkdirSync(folder, { recursive: true });
    const temporary = writeTemporary(folder, new TextEncoder().encode(text));
    try {
      // A second name for the finished file, given only if it is free.
      linkSync(temporary, path);
      return true;
    } catch (failure) {
      const code = (failure as NodeJS.ErrnoException).code ?? "";
      if (code === "EEXIST") return false;
      if (["EPERM", "ENOSYS", "ENOTSUP", "EOPNOTSUPP"].includes(code)) return createWithoutLinks(path, text);
      throw failure;
    } finally {
      rmSync(temporary, { force: true });
    }
  });

/** Memory sticks and the like know no second names: there the file is written where it belongs. */
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
