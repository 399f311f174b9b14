import { mkdirSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";

/** Writes a new file, with the folders it wants; false, and nothing touched, when something stands there. */
export function createFile(path: string, text: string): boolean {
  mkdirSync(dirname(path), { recursive: true });
  try {
    writeFileSync(path, text, { flag: "wx" });
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") return false;
    throw error;
  }
}
