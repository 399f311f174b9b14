import { isAscii } from "node:buffer";
import type { Diagnostic } from "../diagnostics/diagnostic.ts";
import type { Io } from "../io/io.ts";

/** A file to load: its path without links, its name in messages, and its largest permitted size [bytes]. */
type FileRequest = {
  readonly real: string;
  readonly name: string;
  /** What it should be: "readings file". */
  readonly what: string;
  readonly largest: number;
};

/** An error without its position. */
export type FileError = Required<Pick<Diagnostic, "code" | "message" | "hint">>;

/** Reads a regular file up to a size limit, or returns the reason why not. */
export function loadFile(
  { real, name, what, largest }: FileRequest,
  io: Io,
): { bytes: Uint8Array } | { why: FileError } {
  const read = io.readFile(real, largest);
  const refuse = (code: Diagnostic["code"], message: string, hint: string) => ({ why: { code, message, hint } });
  switch (read.kind) {
    case "read":
      return { bytes: read.bytes };
    case "missing":
      if (name.includes("\ufffd"))
        return refuse("project/name-not-utf8", `the name \`${name}\` is not UTF-8`, "rename it in plain letters");
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

/** Decodes UTF-8 and keeps its byte order mark. Invalid bytes become U+FFFD, which the parser refuses. */
export const decodeText = (bytes: Uint8Array): string => (isAscii(bytes) ? decodeLatin1(bytes) : UTF8.decode(bytes));

/** Decodes bytes one for one: fastest, and equal to UTF-8 in ASCII. */
export const decodeLatin1 = ({ buffer, byteOffset, length }: Uint8Array): string =>
  Buffer.from(buffer, byteOffset, length).toString("latin1");

const UTF8 = new TextDecoder("utf-8", { ignoreBOM: true });

const kilobytes = (bytes: number) => `${Math.ceil(bytes / 1024)} kB`;
