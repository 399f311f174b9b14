import { isAscii } from "node:buffer";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { Io } from "../io/io.ts";

/** What is asked for: where it stands without links, how messages call it, and how much of it is read at most [bytes]. */
export type Wanted = {
  readonly real: string;
  readonly name: string;
  /** What it should be: "readings file". */
  readonly what: string;
  readonly largest: number;
};

/** A refusal that does not know its place yet. */
export type FileError = Required<Pick<Diagnostic, "code" | "message" | "hint">>;

/** Reads a plain file of a sensible size, or says why not. */
export function loadFile({ real, name, what, largest }: Wanted, io: Io): { bytes: Uint8Array } | { why: FileError } {
  const read = io.readFile(real, largest);
  const refuse = (code: Diagnostic["code"], message: string, hint: string) => ({ why: { code, message, hint } });
  switch (read.kind) {
    case "read":
      return { bytes: read.bytes };
    case "missing":
      return refuse("project/file-missing", `there is no ${what} \`${name}\``, "was it moved or taken away just now?");
    case "folder":
      return refuse("project/not-a-file", `\`${name}\` is a folder`, `name the ${what} in it`);
    case "other":
      return refuse("project/not-a-file", `\`${name}\` is not a plain file`, `name a ${what}`);
    case "too-large":
      return refuse(
        "project/too-large",
        `\`${name}\` has ${kilobytes(read.size)}; at most ${kilobytes(largest)} are read`,
        "make it smaller",
      );
    case "unreadable":
      return refuse("project/unreadable", `\`${name}\` cannot be read`, read.why);
  }
}

/** The text of a file as typed: UTF-8, its byte order mark kept. What is no UTF-8 turns into U+FFFD, which source/ refuses. */
export const textOf = (bytes: Uint8Array): string => (isAscii(bytes) ? inLatin(bytes) : UTF8.decode(bytes));

/** Bytes as letters, one for one: quickest, and the same in ASCII. */
export const inLatin = ({ buffer, byteOffset, length }: Uint8Array): string =>
  Buffer.from(buffer, byteOffset, length).toString("latin1");

const UTF8 = new TextDecoder("utf-8", { ignoreBOM: true });

const kilobytes = (bytes: number) => `${Math.ceil(bytes / 1024)} kB`;
