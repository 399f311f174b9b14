import { encode } from "uqr";
import type { Shop } from "../../model/model.ts";
import type { Part, Title } from "../content.ts";
import type { BlockBuilder, Context, Placement, SheetStage } from "../context.ts";
import { isPhone } from "../phone.ts";
import { presentItems } from "../section.ts";
import { dateSpan, dateWords } from "../words/dates.ts";
import { joinWords, lowercaseFirst } from "../words/text.ts";

/** The shop's name, address and logo. */
export const masthead: BlockBuilder = (context) =>
  isPhone(context) ? phoneMasthead(context.model.shop) : shopMasthead(context.model.shop);

/** On a phone: the name on a band, and the number to call. */
function phoneMasthead({ name = "", phone }: Shop): readonly Part[] {
  if (name === "" && phone === undefined) return [];
  const lines = phone === undefined ? [] : [{ text: phone, link: `tel:${phone.replace(/[^\d+]/g, "")}` }];
  return [{ kind: "masthead", name, lines, style: "band" }];
}

/** The masthead of a sheet without a job. */
export function shopMasthead(shop: Shop): readonly Part[] {
  const name = shop.name ?? "";
  const reach = presentItems<string>([shop.address.join(", "), shop.phone]);
  const lines = presentItems<{ text: string; link?: string }>([
    reach.length > 0 && { text: reach.join(" · ") },
    shop.email !== undefined && { text: shop.email, link: `mailto:${shop.email}` },
    shop.web !== undefined && {
      text: shop.web.replace(/^https?:\/\/|\/$/g, ""),
      link: /^https?:/.test(shop.web) ? shop.web : `https://${shop.web}`,
    },
  ]);
  if (name === "" && lines.length === 0 && shop.logo === undefined) return [];
  return [
    {
      kind: "masthead",
      name,
      lines,
      ...(shop.strapline ? { strapline: shop.strapline } : {}),
      ...(shop.masthead ? { style: shop.masthead } : {}),
      ...(shop.logo ? { logo: { image: shop.logo, alt: name === "" ? "Shop logo" : `Logo of ${name}` } } : {}),
    },
  ];
}

/** What kind of document this is, of which head, and its dates. */
export const title: BlockBuilder = (context, place) => [
  { kind: "title", ...(isPhone(context) ? phoneTitle(context, place) : titleWords(context, place, true)) },
];

/** On a phone: what it is about, then stamp, customer, kind of sheet, number and date. */
function phoneTitle(context: Context, place: Placement): Omit<Title, "kind"> {
  const { identity, text } = context.model;
  const { kicker, text: name, note } = titleWords(context, place, false);
  const stamps = text.heads.flatMap(({ stamped }) => stamped ?? []);
  const stamped = text.head.stamped ?? (stamps.length > 0 ? joinWords(stamps) : undefined);
  const who = presentItems<string>([text.customer?.name, text.customer?.reference]).join(", ");
  const facts = presentItems<string>([
    stamped && `${text.heads.length > 1 ? "Heads" : "Head"} stamped ${stamped}`,
    who,
    `${kicker}, ${dateWords(identity.issued)}`,
  ]);
  return { text: name, under: facts.join(" · "), ...(note === undefined ? {} : { note }) };
}

/** Whether the first page has a kicker whose line can say it. */
export const titleSaysDraft = (context: Context): boolean => context.blocks.includes("title") && !isPhone(context);

/** Kind and name of a sheet; with its dates, or with its number alone where these stand elsewhere. */
export function titleWords(context: Context, place: Placement, dated: boolean): Omit<Title, "kind"> {
  const { model, stages } = context;
  const { identity } = model;
  const product = identity.kind === "product";
  const dates = presentItems<string>([
    `${product ? "Part " : ""}${identity.number}`,
    !product && measuredWords(stages),
    `issued ${dateWords(identity.issued)}`,
    String(identity.revision) !== "1" && `revision ${identity.revision}`,
  ]);
  const kind = place.cell.title ?? (product ? "Product sheet" : "Cylinder head sheet");
  const replaces = identity.replaces
    ? `Replaces ${identity.replaces}${identity.because ? `: ${identity.because}` : "."}`
    : undefined;
  return {
    kicker: dated ? kind : `${kind} ${identity.number}`,
    text: identity.title,
    ...(dated ? { aside: dates.join(" · ") } : {}),
    ...(replaces === undefined ? {} : { note: replaces }),
    ...(identity.draft && titleSaysDraft(context) ? { draft: true } : {}),
  };
}

/** When it was measured: the span of all stages, or the stages that state their day. */
function measuredWords(stages: readonly SheetStage[]): string {
  const dated = stages.flatMap(({ name, stage: { date } }) => (date === undefined ? [] : [{ name, date }]));
  const days = dated.map(({ date }) => date).sort();
  if (days.length === 0) return "";
  if (days.length === stages.length) return `measured ${dateSpan(days[0]!, days.at(-1)!)}`;
  return joinWords(dated.map(({ name, date }) => `${lowercaseFirst(name)} measured ${dateWords(date)}`));
}

const CODE_WORDS =
  "Holds the number, the revision and a mark of the figures, to compare this paper with the shop's file.";

/** Number, revision and the mark of the figures as a QR code, to compare a paper with the shop's file; nothing personal. */
export const sheetCode: BlockBuilder = ({ identifier, model: { identity } }) => {
  if (identity.kind === "product") return [];
  const { data } = encode(identifier, { ecc: "M", border: 0 });
  return [{ kind: "code", cells: data, alt: `QR code that reads: ${identifier}`, caption: CODE_WORDS }];
};
