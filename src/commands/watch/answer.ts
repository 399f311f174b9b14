import type { ServerResponse } from "node:http";

/** An answer as a value. */
export type Answer =
  | {
      readonly kind: "bytes";
      readonly status?: number;
      readonly type: string;
      readonly bytes: Uint8Array | string;
      readonly headers?: Readonly<Record<string, string>>;
    }
  /** A stream of events, until the reader or the program goes; `start` is given how to send, and returns how to stop. */
  | { readonly kind: "events"; readonly start: (send: (name: string, data: unknown) => void) => () => void };

/** What every answer says to the browser: run, show and send nothing that is not the page's own. */
const GUARDED: Readonly<Record<string, string>> = {
  "Content-Security-Policy": "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Resource-Policy": "same-origin",
  "Cross-Origin-Opener-Policy": "same-origin",
  "X-Frame-Options": "DENY",
  "Cache-Control": "no-store",
};

/** The page's own policy: its script, its styles, its pictures, its fonts, and nothing written into the page. */
export const pagePolicy = (nonce: string): string =>
  [
    "default-src 'none'",
    "script-src 'self'",
    `style-src 'self' 'nonce-${nonce}'`,
    "img-src 'self'",
    "font-src 'self'",
    "connect-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
    "require-trusted-types-for 'script'",
    "trusted-types 'none'",
  ].join("; ");

export const inText = (status: number, text: string, headers?: Readonly<Record<string, string>>): Answer => ({
  kind: "bytes",
  status,
  type: "text/plain; charset=utf-8",
  bytes: `${text}\n`,
  ...(headers ? { headers } : {}),
});

export const inJson = (value: unknown, status = 200): Answer => ({
  kind: "bytes",
  status,
  type: "application/json",
  bytes: JSON.stringify(value),
});

/** A reader that takes nothing for so long that this piles up is sent away [bytes]. */
const PILE = 4 * 1024 * 1024;
/** A sign of life, so that a reader that went away without a word is noticed [ms]. */
const BEAT = 15_000;

/** Sends an answer; without its body to somebody who asked for the head. */
export function send(answer: Answer, response: ServerResponse, headOnly = false): void {
  if (answer.kind === "bytes") {
    const { status = 200, type, bytes, headers } = answer;
    const length = typeof bytes === "string" ? Buffer.byteLength(bytes) : bytes.length;
    response.writeHead(status, { ...GUARDED, "Content-Type": type, "Content-Length": length, ...headers });
    response.end(headOnly ? undefined : bytes);
    return;
  }
  response.writeHead(200, { ...GUARDED, "Content-Type": "text/event-stream" });
  if (headOnly) {
    response.end();
    return;
  }
  const write = (text: string) => {
    response.write(text);
    if (response.writableLength > PILE) response.destroy();
  };
  const beat = setInterval(() => write(": here\n\n"), BEAT);
  const stop = answer.start((name, data) => write(`event: ${name}\ndata: ${JSON.stringify(data)}\n\n`));
  response.on("close", () => {
    clearInterval(beat);
    stop();
  });
}
