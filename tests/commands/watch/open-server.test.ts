import { request } from "node:http";
import { connect } from "node:net";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { jsonAnswer, textAnswer } from "../../../src/commands/watch/answer.ts";
import { LIMITS, openServer, type Server } from "../../../src/commands/watch/open-server.ts";

const TOKEN = "kept-from-everybody-0123";
const answered: string[] = [];
let server: Server;
let quick: Server;

beforeAll(async () => {
  const answering = async ({ method, path }: { method: string; path: string }, body: () => Promise<unknown>) => {
    answered.push(path);
    if (path === "fails") throw new Error("a secret of ours");
    return method === "POST" ? jsonAnswer(await body()) : textAnswer(200, `you asked for ${path}`);
  };
  server = await openServer(undefined, TOKEN, answering, { ...LIMITS, headBytes: 4096, bodyBytes: 1000 });
  quick = await openServer(undefined, TOKEN, answering, { ...LIMITS, head: 150, request: 200, connections: 2 });
});
afterAll(async () => {
  await server.close();
  await quick.close();
});

type Asked = { path?: string; method?: string; headers?: Record<string, string>; body?: string };
type Got = { status: number; body: string; headers: Record<string, unknown> };

/** Asks with headers that a browser would not let a page write. */
const ask = ({ path = `/${TOKEN}/x`, method = "GET", headers = {}, body }: Asked): Promise<Got> =>
  new Promise((done, failed) => {
    const asking = request({ host: "127.0.0.1", port: server.port, path, method, headers }, (response) => {
      let text = "";
      response.setEncoding("utf8").on("data", (part) => {
        text += part;
      });
      response.on("end", () => done({ status: response.statusCode!, body: text, headers: response.headers }));
    });
    asking.on("error", failed);
    asking.end(body);
  });

/** Sends bytes as they are, and gives back all that comes until the line is cut. */
const raw = (port: number, bytes: string | Uint8Array, host = "127.0.0.1"): Promise<string> =>
  new Promise((done, failed) => {
    const socket = connect(port, host, () => socket.write(bytes));
    let text = "";
    socket.setEncoding("utf8").on("data", (part) => {
      text += part;
    });
    socket.on("close", () => done(text));
    socket.on("error", (error: NodeJS.ErrnoException) => (error.code === "ECONNRESET" ? done(text) : failed(error)));
  });

const alive = async () => expect((await ask({})).status).toBe(200);
const json = { "Content-Type": "application/json" };

describe("who may ask", () => {
  test("the page itself", async () => {
    expect(await ask({})).toMatchObject({ status: 200, body: "you asked for x\n" });
    const own = { Origin: `http://127.0.0.1:${server.port}`, "Sec-Fetch-Site": "same-origin" };
    expect((await ask({ headers: own })).status).toBe(200);
  });

  test.each([
    ["another name for this machine (DNS rebinding)", { Host: "rebound.example" }],
    ["another port", { Host: "127.0.0.1:1" }],
    ["no port", { Host: "127.0.0.1" }],
    ["localhost", { Host: "localhost:PORT" }],
    ["a page from elsewhere", { Origin: "http://elsewhere.example" }],
    ["a page without an origin", { Origin: "null" }],
    ["a page of another port on this machine", { Origin: "http://127.0.0.1:1" }],
    ["a picture or script on a page from elsewhere", { "Sec-Fetch-Site": "cross-site" }],
    ["a page of another port, as browsers say it", { "Sec-Fetch-Site": "same-site" }],
  ])("not %s", async (_, headers) => {
    const before = answered.length;
    const put = Object.entries(headers).map(([name, value]) => [name, value.replace("PORT", String(server.port))]);
    const got = await ask({ headers: Object.fromEntries(put) });
    expect(got.status).toBe(403);
    expect(got.body).not.toContain(TOKEN);
    expect(answered.length).toBe(before);
  });

  test.each([
    ["nothing", "/"],
    ["no slash behind it", `/${TOKEN}`],
    ["a wrong one", "/kept-from-everybody-9999/x"],
    ["its beginning", `/${TOKEN.slice(0, -1)}/x`],
    ["more than it", `/${TOKEN}0/x`],
    ["in capitals", `/${TOKEN.toUpperCase()}/x`],
    ["spelled another way", `/%6bept-from-everybody-0123/x`],
    ["a path that leads back to it", `/x/../${TOKEN}/x`],
    ["two slashes", `//${TOKEN}/x`],
    ["an address without an end", `/${TOKEN}/${"x".repeat(3000)}`],
  ])("the secret is wanted: %s", async (_, path) => {
    const before = answered.length;
    expect(await ask({ path })).toMatchObject({ status: 404, body: "nothing is here\n" });
    expect(answered.length).toBe(before);
  });

  test.each(["PUT", "DELETE", "OPTIONS", "PATCH", "TRACE", "PROPFIND"])("%s is not for here", async (method) => {
    expect(await ask({ method })).toMatchObject({ status: 405, headers: { allow: "GET, HEAD, POST" } });
  });

  test("nobody on another address: 127.0.0.2 is this machine too, but not where the page is", async () => {
    await expect(raw(server.port, "GET / HTTP/1.1\r\n\r\n", "127.0.0.2")).rejects.toThrow("ECONNREFUSED");
  });
});

test("every answer, also a refusal, tells the browser to run, frame and pass on nothing", async () => {
  for (const path of [`/${TOKEN}/x`, "/"]) {
    const { headers } = await ask({ path });
    expect(headers).toMatchObject({
      "content-security-policy": expect.stringContaining("default-src 'none'"),
      "x-content-type-options": "nosniff",
      "referrer-policy": "no-referrer",
      "cross-origin-resource-policy": "same-origin",
      "cache-control": "no-store",
    });
    expect(Object.keys(headers).filter((name) => /access-control|server|powered/.test(name))).toEqual([]);
  }
});

test("HEAD brings no body", async () => {
  expect(await ask({ method: "HEAD" })).toMatchObject({ status: 200, body: "" });
});

test("a failure of ours is said without its reason", async () => {
  const { status, body } = await ask({ path: `/${TOKEN}/fails` });
  expect([status, body]).toEqual([500, "headsheet itself failed\n"]);
  await alive();
});

describe("what may be sent", () => {
  test("JSON, said to be JSON", async () => {
    expect((await ask({ method: "POST", headers: json, body: '{"a":1}' })).body).toBe('{"a":1}');
    // The types a form or a page elsewhere may send without asking first.
    for (const type of ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data"])
      expect((await ask({ method: "POST", headers: { "Content-Type": type }, body: "{}" })).status).toBe(415);
    expect((await ask({ method: "POST", headers: json, body: "{" })).status).toBe(400);
  });

  test("no more than a job's text comes to, announced or not", async () => {
    const body = JSON.stringify("x".repeat(2000));
    expect((await ask({ method: "POST", headers: json, body })).status).toBe(413);
    const head = `POST /${TOKEN}/x HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nContent-Type: application/json\r\n`;
    const chunk = `3e8\r\n${"x".repeat(1000)}\r\n`;
    expect(await raw(server.port, `${head}Transfer-Encoding: chunked\r\n\r\n${chunk}${chunk}`)).toMatch(
      /^HTTP\/1.1 413/,
    );
    await alive();
  });

  test("no flood of headers", async () => {
    const many = Array.from({ length: 500 }, (_, n) => `X-${n}: ${"y".repeat(20)}\r\n`).join("");
    expect(await raw(server.port, `GET /${TOKEN}/x HTTP/1.1\r\n${many}\r\n`)).toMatch(/^HTTP\/1.1 431/);
    await alive();
  });

  test.each([
    ["noise", Uint8Array.from({ length: 4000 }, (_, n) => (n * 7919 + 13) % 256)],
    ["the beginning of TLS", Uint8Array.of(0x16, 3, 1, 2, 0, 1, 0, 1, 0xfc, 3, 3)],
    ["two lengths", `POST / HTTP/1.1\r\nHost: a\r\nContent-Length: 5\r\nContent-Length: 6\r\n\r\nhello!`],
    [
      "length and chunks",
      `POST / HTTP/1.1\r\nHost: a\r\nContent-Length: 5\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n`,
    ],
    ["a header with a line break in it", "GET / HTTP/1.1\r\nHost: a\r\nX: a\rb\r\n\r\n"],
    ["no host", "GET / HTTP/1.1\r\n\r\n"],
    ["an unknown method", "BREW / HTTP/1.1\r\nHost: a\r\n\r\n"],
  ])("%s is answered as bad, and survived", async (_, bytes) => {
    expect(await raw(server.port, bytes)).toMatch(/^HTTP\/1.1 400/);
    await alive();
  });

  test("no other protocol on the same line", async () => {
    const upgrade = `GET /${TOKEN}/x HTTP/1.1\r\nHost: 127.0.0.1:${server.port}\r\nConnection: Upgrade\r\nUpgrade: websocket\r\n\r\n`;
    expect(await raw(server.port, upgrade)).toBe("");
    expect(await raw(server.port, "CONNECT elsewhere.example:443 HTTP/1.1\r\nHost: elsewhere.example\r\n\r\n")).toBe(
      "",
    );
    await alive();
  });
});

test("who dawdles is sent away: over the head, over the body", async () => {
  expect(await raw(quick.port, "GET / HT")).toMatch(/^HTTP\/1.1 408/);
  const head = `POST /${TOKEN}/x HTTP/1.1\r\nHost: 127.0.0.1:${quick.port}\r\nContent-Type: application/json\r\n`;
  expect(await raw(quick.port, `${head}Content-Length: 10\r\n\r\n{`)).toMatch(/^HTTP\/1.1 408|^$/);
});

test("of more lines than allowed the oldest stranger's is cut, and a new one only where all others are the page's", async () => {
  const first = raw(quick.port, "GET").then(() => "first");
  const second = raw(quick.port, "GET").then(() => "second");
  await new Promise((later) => setTimeout(later, 30));
  expect(await raw(quick.port, "GET / HTTP/1.0\r\n\r\n")).toMatch(/^HTTP/);
  expect(await Promise.race([first, second])).toBe("first");
  await second;
  const known = `GET /${TOKEN}/x HTTP/1.1\r\nHost: 127.0.0.1:${quick.port}\r\n\r\n`;
  const pages = [connect(quick.port, "127.0.0.1"), connect(quick.port, "127.0.0.1")];
  for (const page of pages) page.write(known);
  await new Promise((later) => setTimeout(later, 30));
  expect(await raw(quick.port, "GET / HTTP/1.0\r\n\r\n")).toBe("");
  for (const page of pages) page.destroy();
  await new Promise((later) => setTimeout(later, 30));
  expect(await raw(quick.port, "GET / HTTP/1.0\r\n\r\n")).toMatch(/^HTTP/);
});

test("a port that is taken is wrong use, said plainly", async () => {
  await expect(openServer(server.port, TOKEN, async () => textAnswer(200, ""))).rejects.toThrow(
    `port ${server.port} is taken by another program: name another, or leave --port out`,
  );
});
