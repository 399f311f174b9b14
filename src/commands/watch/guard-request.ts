import { timingSafeEqual } from "node:crypto";
import type { IncomingMessage } from "node:http";

/** Address of the page: host, and the secret part of its path. */
type PageAddress = { readonly host: string; readonly token: string };

/** An accepted request: its path below the secret one, and its query. */
export type PageRequest = { readonly method: string; readonly path: string; readonly query: URLSearchParams };
type Rejection = { readonly status: 403 | 404 | 405; readonly why: string };

/** Longest URL accepted [characters], many times the longest that the page uses. */
const LONGEST_URL = 2000;

/**
 * Accepts requests from the page only. The check of Host prevents DNS rebinding, that of the secret path access by other programs
 * and pages that try ports, and those of Origin and Sec-Fetch-Site cross-site requests.
 */
export function guardRequest(
  { headers, method = "", url = "" }: IncomingMessage,
  { host, token }: PageAddress,
): PageRequest | Rejection {
  if (headers.host !== host) return { status: 403, why: "this address is not served here" };
  if (headers.origin !== undefined && headers.origin !== `http://${host}`)
    return { status: 403, why: "another page may not ask" };
  const from = headers["sec-fetch-site"];
  if (from !== undefined && from !== "same-origin" && from !== "none")
    return { status: 403, why: "another page may not ask" };
  const [whole = "", query = ""] = url.length > LONGEST_URL ? [] : splitOnce(url, "?");
  const [, first = "", ...rest] = whole.split("/");
  if (!whole.startsWith("/") || rest.length === 0 || !equalsInConstantTime(first, token))
    return { status: 404, why: "nothing is here" };
  if (!["GET", "HEAD", "POST"].includes(method)) return { status: 405, why: "this cannot be done here" };
  return { method, path: rest.join("/"), query: new URLSearchParams(query) };
}

const splitOnce = (text: string, at: string): readonly string[] => {
  const found = text.indexOf(at);
  return found < 0 ? [text] : [text.slice(0, found), text.slice(found + 1)];
};

/** Compares in constant time. */
function equalsInConstantTime(one: string, other: string): boolean {
  const [a, b] = [Buffer.from(one), Buffer.from(other)];
  return a.length === b.length && timingSafeEqual(a, b);
}
