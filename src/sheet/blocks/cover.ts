import { type Model, SIDES, type Side } from "../../model/model.ts";
import type { Cover, Part } from "../content.ts";
import type { BlockBuilder, Context } from "../context.ts";
import { sharedDecimals } from "../display.ts";
import { scaleBar } from "../drawing/true-size.ts";
import { presentItems } from "../section.ts";
import { DELIVERED } from "../words/identity.ts";
import { countWords, lowercaseFirst, toSentence } from "../words/text.ts";
import { titleWords } from "./masthead.ts";

/** Least and most height [pt]. */
const HEIGHT = [188, 240] as const;

/** The opening of a catalogue page: shop, product, what it fits, and its photograph or its valves at true size. */
export const cover: BlockBuilder = (context, place): readonly Part[] => {
  const { identity, shop, text } = context.model;
  const { product, delivered } = text;
  if (!product) return [];
  const { note } = titleWords(context, place, false);
  const words = presentItems<string>([
    product.fits.length > 0 && toSentence(`For ${product.fits.map(lowercaseFirst).join("; ")}`),
    delivered && DELIVERED[delivered],
    note,
  ]);
  return [
    {
      kind: "cover",
      name: shop.name ?? "",
      ...(shop.logo ? { logo: { image: shop.logo, alt: `Logo of ${shop.name ?? "the shop"}` } } : {}),
      aside: `Product sheet ${identity.number} · revision ${identity.revision}`,
      title: identity.title,
      text: words.join(" "),
      ...(shop.hero === "none" ? {} : coverPicture(context, product)),
      height: HEIGHT[0],
      grow: HEIGHT,
    },
  ];
};

function coverPicture(context: Context, { photo, name }: NonNullable<Model["text"]["product"]>): Partial<Cover> {
  if (photo !== undefined && context.model.shop.hero !== "outline")
    return { picture: { image: photo, alt: `Photograph: ${name}` } };
  const discs = SIDES.flatMap((side) => discOf(context, side) ?? []);
  if (discs.length === 0) return {};
  const alt = discs.map(({ label, size, throat }) => `${label}, ${[size, throat].filter(Boolean).join(", ")}`);
  return {
    valves: { discs, scaleBar: scaleBar(context.display), alt: `Valves drawn at true size: ${alt.join("; ")}.` },
  };
}

/** The valves of one side: where every head measured has the same. */
function discOf({ display, model }: Context, side: Side) {
  const ports = model.samples.flatMap(({ stage }) => stage.ports[side] ?? []);
  const [first] = ports;
  const diameter = first?.valves[0]?.head;
  if (first === undefined || diameter === undefined) return undefined;
  const same = ports.every(({ valves }) => valves.every(({ head }) => Math.abs(head - diameter) < SAME));
  if (!same) return undefined;
  const throats = ports.flatMap(({ throat }) => throat ?? []);
  const throat = throats.length > 0 && Math.max(...throats) - Math.min(...throats) < SAME ? throats[0] : undefined;
  const shown = (value: number) =>
    display.full("length", value, sharedDecimals(display, "length", [display.number("length", value)]));
  const count = first.valves.length * first.ports;
  return {
    diameter: diameter * 1000,
    ...(throat === undefined
      ? {}
      : {
          throatDiameter: throat * 1000,
          throat: `throat ${display.digits("length", throat, sharedDecimals(display, "length", [display.number("length", throat)]))}`,
        }),
    size: shown(diameter),
    label: countWords(count, `${side} valve`).replace(/^1 /, ""),
  };
}

/** Sizes that print alike [m]. */
const SAME = 0.00005;
