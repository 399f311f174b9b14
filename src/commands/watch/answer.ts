import type { ServerResponse } from "node:http";

/** A response as a value. */
export type Answer =
  | {
      readonly kind: "bytes";
      readonly status?: number;
      readonly type: string;
      readonly bytes: Uint8Array | string;
      readonly headers?: Readonly<Record<string, string>>;
    }
  /** A stream of events, open until either side closes it; `start` receives the send function and returns the stop function. */
  | { readonly kind: "events"; readonly start: (send: (name: string, data: unknown) => void) => () => void };

/** Headers of every answer: they forbid scripts, framing, referrers, caching and use by other origins. */
const SECURITY_HEADERS: Readonly<Record<string, string>> = {
  "Content-Security-Policy": "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  "X-Content-Type-Options": "nosniff",
  "Referrer-Policy": "no-referrer",
  "Cross-Origin-Resource-Policy": "same-origin",
  "Cross-Origin-Opener-Policy": "same-origin",
  "X-Frame-Options": "DENY",
  "Cache-Control": "no-store",
};

/** Content security policy of the page: its own scripts, styles, images and fonts, nothing inline but styles with the nonce. */
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

export const textAnswer = (status: number, text: string, headers?: Readonly<Record<string, string>>): Answer => ({
  kind: "bytes",
  status,
  type: "text/plain; charset=utf-8",
  bytes: `${text}\n`,
  ...(headers ? { headers } : {}),
});

export const jsonAnswer = (value: unknown, status = 200): Answer => ({
  kind: "bytes",
  status,
  type: "application/json",
  bytes: JSON.stringify(value),
});

/** Unsent data at which a client that does not read is disconnected [bytes]. */
const MOST_BUFFERED = 4 * 1024 * 1024;
/** Interval of the heartbeat by which a vanished client is detected [ms]. */
const HEARTBEAT = 15_000;

/** Sends an answer, without its body for a HEAD request. */
export function sendAnswer(answer: Answer, response: ServerResponse, headOnly = false): void {
  if (answer.kind === "bytes") {
    const { status = 200, type, bytes, headers } = answer;
    const length = typeof bytes === "string" ? Buffer.byteLength(bytes) : bytes.length;
    response.writeHead(status, { ...SECURITY_HEADERS, "Content-Type": type, "Content-Length": length, ...headers });
    response.end(headOnly ? undefined : bytes);
    return;
  }
  response.writeHead(200, { ...SECURITY_HEADERS, "Content-Type": "text/event-stream" });
  if (headOnly) {
    response.end();
    return;
  }
  const write = (text: string) => {
    response.write(text);
    if (response.writableLength > MOST_BUFFERED) response.destroy();
  };
  const heartbeat = setInterval(() => write(": here\n\n"), HEARTBEAT);
  const stop = answer.start((name, data) => write(`event: ${name}\ndata: ${JSON.stringify(data)}\n\n`));
  response.on("close", () => {
    clearInterval(heartbeat);
    stop();
  });
}
