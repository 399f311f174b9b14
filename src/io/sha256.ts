import crypto from "node:crypto";

/** SHA-256 of a text or of bytes, in base64url. */
export const sha256 = (content: Uint8Array | string): string =>
  // One call where Node has it: creating a Hash object costs more than hashing a small file.
  typeof crypto.hash === "function"
    ? crypto.hash("sha256", content, "base64url")
    : crypto.createHash("sha256").update(content).digest("base64url");
