import { encode } from "uqr";
import type { BlockBuilder } from "../context.ts";

/** Number, revision and the mark of the figures as a QR code, to compare a paper with the shop's file; nothing personal. */
export const sheetCode: BlockBuilder = ({ identifier, model: { identity } }) => {
  if (identity.kind === "product") return [];
  const { data } = encode(identifier, { ecc: "M", border: 0 });
  return [{ kind: "code", cells: data, alt: `QR code that reads: ${identifier}` }];
};
