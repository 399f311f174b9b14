import { readFileSync, writeFileSync } from "node:fs";
import type { Content } from "./stages.ts";

const FILE = "out/bench/content.json";

/** The page that every program makes, between processes. */
export function writeContent({ attachments, ...content }: Content): void {
  const coded = attachments.map((file) => ({ ...file, bytes: Buffer.from(file.bytes).toString("base64") }));
  writeFileSync(FILE, JSON.stringify({ ...content, attachments: coded }));
}

/** As written before. */
export function readContent(): Content {
  const { attachments, ...content } = JSON.parse(readFileSync(FILE, "utf8"));
  return {
    ...content,
    attachments: attachments.map((file: { bytes: string }) => ({ ...file, bytes: Buffer.from(file.bytes, "base64") })),
  };
}
