import crypto from "node:crypto";

/** A text's or file's sum: equal for equal bytes, and for no others that anybody could find. */
export const sha256Hex = (content: Uint8Array | string): string =>
  // In one go, where Node can: for thousands of small files an object for each sum takes longer than the summing.
  typeof crypto.hash === "function"
    ? crypto.hash("sha256", content, "base64url")
    : crypto.createHash("sha256").update(content).digest("base64url");
