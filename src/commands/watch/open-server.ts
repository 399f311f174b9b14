import { createServer, type IncomingMessage, type ServerResponse } from "node:http";
import { UsageError } from "../usage-error.ts";
import { type Answer, inText, send } from "./answer.ts";
import { guardRequest, type Passed } from "./guard-request.ts";

/** How long and how much is waited for and taken. */
export const LIMITS = {
  /** For all of a request's head, and for all of a request [ms]. */
  head: 5_000,
  request: 10_000,
  /** For a reader that takes nothing [ms]. */
  still: 60_000,
  /** Of a request's head and body [bytes]; a body is a job's text, in JSON. */
  headBytes: 16 * 1024,
  bodyBytes: 2 * 1024 * 1024,
  /** Connections, and requests being answered. An idle line costs little, and where too many hang about nobody else gets in. */
  connections: 256,
  requests: 48,
} as const;
export type Limits = { readonly [key in keyof typeof LIMITS]: number };

type Socket = IncomingMessage["socket"];
export type Opened = { readonly port: number; readonly close: () => Promise<void> };
export type Answering = (passed: Passed, body: () => Promise<unknown>) => Promise<Answer>;

/** A request that cannot be taken, found while its body is read. */
class Refused extends Error {
  readonly status: number;
  constructor(status: number, message: string) {
    super(message);
    this.status = status;
  }
}

/** Serves on this machine only. A port that is taken is wrong use. */
export async function openServer(
  port: number | undefined,
  token: string,
  answering: Answering,
  limits: Limits = LIMITS,
): Promise<Opened> {
  let open = 0;
  const server = createServer(
    {
      maxHeaderSize: limits.headBytes,
      headersTimeout: limits.head,
      requestTimeout: limits.request,
      connectionsCheckingInterval: Math.min(1000, limits.head / 2),
      keepAliveTimeout: 5_000,
    },
    (request, response) => {
      open++;
      response.on("close", () => open--);
      void respond(request, response);
    },
  );
  const respond = async (request: IncomingMessage, response: ServerResponse) => {
    const headOnly = request.method === "HEAD";
    try {
      const passed = guardRequest(request, { host: `127.0.0.1:${bound}`, token });
      if ("status" in passed) throw new Refused(passed.status, passed.why);
      if (open > limits.requests) throw new Refused(503, "too much at once: try again");
      send(await answering(passed, () => bodyOf(request, limits.bodyBytes)), response, headOnly);
    } catch (error) {
      const status = error instanceof Refused ? error.status : 500;
      const why = error instanceof Refused ? error.message : "headsheet itself failed";
      if (response.headersSent) response.destroy();
      // What was not read of a body is not waited for.
      else
        send(
          inText(status, why, { Connection: "close", ...(status === 405 ? { Allow: "GET, HEAD, POST" } : {}) }),
          response,
          headOnly,
        );
    }
  };
  server.maxConnections = limits.connections;
  server.setTimeout(limits.still);
  server.on("clientError", turnAway);
  for (const event of ["upgrade", "connect"] as const)
    server.on(event, (_: IncomingMessage, socket: Socket) => socket.destroy());

  const bound = await listening(server, port);
  return {
    port: bound,
    close: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}

function listening(server: ReturnType<typeof createServer>, port: number | undefined): Promise<number> {
  return new Promise((found, failed) => {
    server.once("error", (error: NodeJS.ErrnoException) => {
      if (error.code === "EADDRINUSE")
        failed(new UsageError(`port ${port} is taken by another program: name another, or leave --port out`));
      else if (error.code === "EACCES") failed(new UsageError(`port ${port} may not be used: take one above 1023`));
      else failed(error);
    });
    server.listen({ host: "127.0.0.1", port: port ?? 0, exclusive: true }, () =>
      found((server.address() as { port: number }).port),
    );
  });
}

/** What is no request gets a short answer, if the line still stands, and the line is cut. */
function turnAway(error: NodeJS.ErrnoException, socket: Socket): void {
  const said: Readonly<Record<string, string>> = {
    HPE_HEADER_OVERFLOW: "431 Request Header Fields Too Large",
    ERR_HTTP_REQUEST_TIMEOUT: "408 Request Timeout",
  };
  const status = said[error.code ?? ""] ?? "400 Bad Request";
  if (error.code !== "ECONNRESET" && socket.writable)
    socket.end(`HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`);
  socket.destroySoon();
}

/** A body of JSON. Only a page of our own may send that type without asking first, and nobody else is let. */
async function bodyOf(request: IncomingMessage, most: number): Promise<unknown> {
  if (request.headers["content-type"] !== "application/json") throw new Refused(415, "JSON is wanted here");
  if (Number(request.headers["content-length"] ?? 0) > most) throw new Refused(413, "that is too much");
  const parts: Buffer[] = [];
  let bytes = 0;
  for await (const part of request as AsyncIterable<Buffer>) {
    bytes += part.length;
    if (bytes > most) throw new Refused(413, "that is too much");
    parts.push(part);
  }
  try {
    return JSON.parse(Buffer.concat(parts).toString("utf8"));
  } catch {
    throw new Refused(400, "that is not JSON");
  }
}
