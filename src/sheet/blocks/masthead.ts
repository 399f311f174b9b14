import { encode } from "uqr";
import type { Shop } from "../../model/model.ts";
import type { Part } from "../content.ts";
import type { BlockBuilder } from "../context.ts";
import { presentItems } from "../section.ts";
import { dateSpan, dateWords } from "../words/dates.ts";

/** The shop's name, address and logo. */
export const masthead: BlockBuilder = ({ model }) => shopMasthead(model.shop);

/** The masthead of a sheet without a job. */
export function shopMasthead(shop: Shop): readonly Part[] {
  const name = shop.name ?? "";
  const reach = presentItems<string>([shop.address.join(", "), shop.phone]);
  const lines = presentItems<{ text: string; link?: string }>([
    reach.length > 0 && { text: reach.join(" · ") },
    shop.email !== undefined && { text: shop.email, link: `mailto:${shop.email}` },
    shop.web !== undefined && { text: shop.web, link: /^https?:/.test(shop.web) ? shop.web : `https://${shop.web}` },
  ]);
  if (name === "" && lines.length === 0 && shop.logo === undefined) return [];
  return [
    {
      kind: "masthead",
      name,
      lines,
      ...(shop.strapline ? { strapline: shop.strapline } : {}),
      ...(shop.logo ? { logo: { image: shop.logo, alt: name === "" ? "Shop logo" : `Logo of ${name}` } } : {}),
    },
  ];
}

/** What kind of document this is, of which head, and its dates. */
export const title: BlockBuilder = ({ model, stages }, place) => {
  const { identity } = model;
  const product = identity.kind === "product";
  const measured = stages.flatMap(({ stage }) => (stage.date ? [stage.date] : [])).sort();
  const [first, last] = [measured[0], measured.at(-1)];
  const dates = presentItems<string>([
    !product && first !== undefined && last !== undefined && `measured ${dateSpan(first, last)}`,
    `issued ${dateWords(identity.issued)}`,
    String(identity.revision) !== "1" && `revision ${identity.revision}`,
  ]);
  const kind = product ? "Product sheet" : "Cylinder head sheet";
  const replaces = identity.replaces
    ? `Replaces ${identity.replaces}${identity.because ? `: ${identity.because}` : "."}`
    : undefined;
  return [
    { kind: "heading", level: 1, text: `${place.cell.title ?? kind}: ${identity.title}` },
    {
      kind: "paragraph",
      style: "quiet",
      text: `${product ? "Part" : "Job"} ${identity.number} · ${dates.join(" · ")}`,
    },
    ...(replaces ? ([{ kind: "paragraph", style: "body", text: replaces }] as const) : []),
  ];
};

/** Number, revision and the mark of the figures as a QR code, to compare a paper with the shop's file; nothing personal. */
export const sheetCode: BlockBuilder = ({ identifier, model: { identity } }) => {
  if (identity.kind === "product") return [];
  const { data } = encode(identifier, { ecc: "M", border: 0 });
  return [{ kind: "code", cells: data, alt: `QR code that reads: ${identifier}` }];
};
