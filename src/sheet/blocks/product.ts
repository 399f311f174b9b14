import type { ClosingBand, Facts } from "../content.ts";
import type { BlockBuilder } from "../context.ts";
import { presentItems, section } from "../section.ts";
import { dateWords } from "../words/dates.ts";
import { lowercaseFirst, toSentence } from "../words/text.ts";

type Row = Facts["rows"][number];

/** A head the shop sells again and again: what it fits, what comes with it, its price. */
export const product: BlockBuilder = ({ model: { text } }, place) => {
  const { product: made, delivered } = text;
  if (!made) return [];
  const fact = (label: string, value: string | undefined): Row | undefined => (value ? { label, value } : undefined);
  const rows = presentItems<Row>([
    fact(
      "Revision",
      presentItems<string>([
        made.revision,
        made.validFrom !== undefined && `valid from ${dateWords(made.validFrom)}`,
      ]).join(", "),
    ),
    fact("Fits", made.fits.join("; ")),
    fact("Comes", delivered),
    fact("Included", made.included.join("; ")),
    fact("Not included", made.notIncluded.join("; ")),
    fact("Price", made.price),
  ]);
  return section(place, made.name, [{ kind: "facts", rows }]);
};

/** What comes with a product, each with a square: an empty one would ask for a tick. */
export const included: BlockBuilder = ({ model: { text } }, place) => {
  const items = (text.product?.included ?? []).map((item) => ({ text: item }));
  return items.length === 0 ? [] : section(place, "Included", [{ kind: "list", compact: true, squares: true, items }]);
};

/** What does not come with it. */
export const notIncluded: BlockBuilder = ({ model: { text } }, place) => {
  const items = (text.product?.notIncluded ?? []).map((item) => ({ text: item }));
  return items.length === 0 ? [] : section(place, "Not included", [{ kind: "list", compact: true, items }]);
};

/** The shop's one sentence, price, and how to order. */
export const closing: BlockBuilder = ({ model: { text, shop } }, place) => {
  const { product: made } = text;
  if (!made) return [];
  const lines = presentItems<ClosingBand["lines"][number]>([
    (shop.phone ?? shop.email) !== undefined && {
      text: presentItems<string>([shop.phone, shop.email]).join(" · "),
      ...(shop.email === undefined ? {} : { link: `mailto:${shop.email}` }),
    },
    shop.address.length > 0 && { text: shop.address.join(", ") },
  ]);
  const price = made.price === undefined ? "How to order" : `Price ${lowercaseFirst(made.price)}`;
  const quote = made.line === undefined ? {} : { quote: `\u201c${toSentence(made.line)}\u201d` };
  if (lines.length === 0 && made.price === undefined && made.line === undefined) return [];
  return section(place, undefined, [{ kind: "closing-band", ...quote, heading: price, lines }]);
};
