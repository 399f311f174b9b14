import { createServer, type IncomingMessage, type ServerResponse } from "node:http";
import { UsageError } from "../environment.ts";
import { type Answer, sendAnswer, textAnswer } from "./answer.ts";
import { guardRequest, type PageRequest } from "./guard-request.ts";

/** Limits on time and size. */
export const LIMITS = {
  /** Time to receive the headers, and the whole request [ms]. */
  head: 5_000,
  request: 10_000,
  /** Time after which an inactive connection is closed [ms]. */
  still: 60_000,
  /** Size of headers and body [bytes]; a body is a job's text as JSON. */
  headBytes: 16 * 1024,
  bodyBytes: 2 * 1024 * 1024,
  /** Open connections, and concurrent requests of the page. */
  connections: 256,
  requests: 48,
} as const;
export type Limits = { readonly [key in keyof typeof LIMITS]: number };

type Socket = IncomingMessage["socket"];
export type Server = { readonly port: number; readonly close: () => Promise<void> };
type RequestHandler = (accepted: PageRequest, body: () => Promise<unknown>) => Promise<Answer>;

/** A request to be answered with an error status. */
class RequestError extends Error {
  readonly status: number;
  constructor(status: number, message: string) {
    super(message);
    this.status = status;
  }
}

/** Serves on 127.0.0.1. A port in use is a UsageError. */
export async function openServer(
  port: number | undefined,
  token: string,
  handle: RequestHandler,
  limits: Limits = LIMITS,
): Promise<Server> {
  let open = 0;
  const server = createServer(
    {
      maxHeaderSize: limits.headBytes,
      headersTimeout: limits.head,
      requestTimeout: limits.request,
      connectionsCheckingInterval: Math.min(1000, limits.head / 2),
      keepAliveTimeout: 5_000,
    },
    (request, response) => void respond(request, response),
  );
  const respond = async (request: IncomingMessage, response: ServerResponse) => {
    const headOnly = request.method === "HEAD";
    try {
      const accepted = guardRequest(request, { host: `127.0.0.1:${bound}`, token });
      if ("status" in accepted) throw new RequestError(accepted.status, accepted.why);
      connections.accept(request.socket);
      open++;
      response.on("close", () => open--);
      if (open > limits.requests) throw new RequestError(503, "too much at once: try again");
      sendAnswer(await handle(accepted, () => readJsonBody(request, limits.bodyBytes)), response, headOnly);
    } catch (error) {
      const status = error instanceof RequestError ? error.status : 500;
      const why = error instanceof RequestError ? error.message : "headsheet itself failed";
      if (response.headersSent) response.destroy();
      // The rest of an unread body is not awaited.
      else
        sendAnswer(
          textAnswer(status, why, { Connection: "close", ...(status === 405 ? { Allow: "GET, HEAD, POST" } : {}) }),
          response,
          headOnly,
        );
    }
  };
  const connections = limitConnections(server, limits.connections);
  server.setTimeout(limits.still);
  server.on("clientError", rejectConnection);
  for (const event of ["upgrade", "connect"] as const)
    server.on(event, (_: IncomingMessage, socket: Socket) => socket.destroy());

  const bound = await listen(server, port);
  return {
    port: bound,
    close: () =>
      new Promise((done) => {
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}

/**
 * Limits the open connections. Beyond the limit the oldest that has sent no accepted request is closed, so that a burst of strangers
 * does not lock the page out; a new one is refused only where all others are the page's.
 */
function limitConnections(server: ReturnType<typeof createServer>, most: number) {
  const strangers = new Set<Socket>();
  let count = 0;
  server.on("connection", (socket: Socket) => {
    count++;
    strangers.add(socket);
    socket.on("close", () => {
      count--;
      strangers.delete(socket);
    });
    if (count > most) strangers.values().next().value?.destroy();
  });
  return { accept: (socket: Socket) => strangers.delete(socket) };
}

function listen(server: ReturnType<typeof createServer>, port: number | undefined): Promise<number> {
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

/** Answers a malformed request with a status line, if possible, and closes the connection. */
function rejectConnection(error: NodeJS.ErrnoException, socket: Socket): void {
  const statuses: Readonly<Record<string, string>> = {
    HPE_HEADER_OVERFLOW: "431 Request Header Fields Too Large",
    ERR_HTTP_REQUEST_TIMEOUT: "408 Request Timeout",
  };
  const status = statuses[error.code ?? ""] ?? "400 Bad Request";
  if (error.code !== "ECONNRESET" && socket.writable)
    socket.end(`HTTP/1.1 ${status}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n`);
  socket.destroySoon();
}

/** Reads a JSON body. Requiring this content type makes cross-origin requests need a preflight, which always fails. */
async function readJsonBody(request: IncomingMessage, most: number): Promise<unknown> {
  if (request.headers["content-type"] !== "application/json") throw new RequestError(415, "JSON is wanted here");
  if (Number(request.headers["content-length"] ?? 0) > most) throw new RequestError(413, "that is too much");
  const parts: Buffer[] = [];
  let bytes = 0;
  for await (const part of request as AsyncIterable<Buffer>) {
    bytes += part.length;
    if (bytes > most) throw new RequestError(413, "that is too much");
    parts.push(part);
  }
  try {
    return JSON.parse(Buffer.concat(parts).toString("utf8"));
  } catch {
    throw new RequestError(400, "that is not JSON");
  }
}
