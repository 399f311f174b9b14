import { createHash, randomBytes } from "node:crypto";
import { join, resolve } from "node:path";
import { readPrivateFile, stateFolder, writePrivateFile } from "../../io/private-file.ts";

/** Port and secret part of the page's address. */
export type PageAddress = { readonly port: number; readonly token: string };

/** The address of the same jobs at the last start, and how to keep one for the next. */
export function lastingAddress(
  asked: readonly string[],
  cwd: string,
  folder = stateFolder(),
): { readonly last: PageAddress | undefined; readonly keep: (address: PageAddress) => void } {
  const jobs = JSON.stringify([cwd, ...asked.map((path) => resolve(cwd, path))]);
  const path = join(folder, "watch", `${createHash("sha256").update(jobs).digest("hex").slice(0, 32)}.json`);
  return {
    last: parseAddress(readPrivateFile(path) ?? ""),
    keep: (address) => void writePrivateFile(path, `${JSON.stringify(address)}\n`),
  };
}

export const newToken = (): string => randomBytes(24).toString("base64url");

function parseAddress(text: string): PageAddress | undefined {
  const found = /^\{"port":(\d{1,5}),"token":"([\w-]{32})"\}\n$/.exec(text);
  return found ? { port: Number(found[1]), token: found[2]! } : undefined;
}
