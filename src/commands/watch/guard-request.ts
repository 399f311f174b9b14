import { timingSafeEqual } from "node:crypto";
import type { IncomingMessage } from "node:http";

/** Where the page lives: the address, and the part of its path that nobody can guess. */
export type Place = { readonly host: string; readonly token: string };

/** A request that may pass: what it asks for below the page's path, and its query. */
export type Passed = { readonly method: string; readonly path: string; readonly query: URLSearchParams };
export type Turned = { readonly status: 403 | 404 | 405; readonly why: string };

/** Longest address that the page itself ever asks for, many times over. */
const LONGEST = 2000;

/**
 * Lets a request in only from the page itself. The Host header is checked, as another site's name may be made to lead to this
 * machine (DNS rebinding); the secret path, as any program or page may try a port; Origin and Sec-Fetch-Site, as another page may
 * send what it cannot read.
 */
export function guardRequest(
  { headers, method = "", url = "" }: IncomingMessage,
  { host, token }: Place,
): Passed | Turned {
  if (headers.host !== host) return { status: 403, why: "this address is not served here" };
  if (headers.origin !== undefined && headers.origin !== `http://${host}`)
    return { status: 403, why: "another page may not ask" };
  const from = headers["sec-fetch-site"];
  if (from !== undefined && from !== "same-origin" && from !== "none")
    return { status: 403, why: "another page may not ask" };
  const [whole = "", query = ""] = url.length > LONGEST ? [] : splitOnce(url, "?");
  const [, first = "", ...rest] = whole.split("/");
  if (!whole.startsWith("/") || rest.length === 0 || !isSame(first, token))
    return { status: 404, why: "nothing is here" };
  if (!["GET", "HEAD", "POST"].includes(method)) return { status: 405, why: "this cannot be done here" };
  return { method, path: rest.join("/"), query: new URLSearchParams(query) };
}

const splitOnce = (text: string, at: string): readonly string[] => {
  const found = text.indexOf(at);
  return found < 0 ? [text] : [text.slice(0, found), text.slice(found + 1)];
};

/** In the same time wherever the two differ. */
function isSame(one: string, other: string): boolean {
  const [a, b] = [Buffer.from(one), Buffer.from(other)];
  return a.length === b.length && timingSafeEqual(a, b);
}
