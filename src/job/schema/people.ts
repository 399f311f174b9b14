import { key, keys, requiredKey } from "./keys.ts";
import { count, date, list, text, texts, word } from "./plain.ts";

const ADDRESS = ["4 Slipway", "Portnew"];

/** Whose head it is. */
export const customerSchema = () =>
  keys({
    name: requiredKey(true, text("Who brought the head"), "H. Ashgrove"),
    email: key(false, text("E-mail"), "heads@example.org"),
    phone: key(false, text("Telephone"), "0100 1"),
    address: key(false, texts("Address, one line an entry"), ADDRESS),
    reference: key(true, text("The customer's own reference"), "Order 7"),
  }).meta({ description: "Whose head it is" });

/** The head on the bench, or what a pair shares. */
export const headSchema = () =>
  keys({
    name: key(true, text("What the porter calls it"), "Two-valve alloy four"),
    casting: key(true, text("Casting mark"), "QH 1"),
    stamped: key(true, text("Mark stamped into this part"), "4471-B"),
    material: key(true, text("What it is made of", "aluminium")),
    condition: key(true, text("Condition on arrival"), "cracked at cylinder 3"),
    numbering: key(true, text("How cylinders are counted", "cylinder 1 at the timing side")),
  }).meta({ description: "The head" });

/** Heads come in pairs. */
export const headsSchema = () =>
  list(
    "Several heads of one job, instead of one",
    keys({
      id: requiredKey(true, text("Short name of this one of the pair", "L")),
      name: key(true, text("What the porter calls it"), "left"),
      casting: key(true, text("Casting mark"), "QH 1"),
      stamped: key(true, text("Mark stamped into this part"), "4471-B"),
      cylinders: key(true, list("Cylinders it serves", count("Cylinder")), [1, 3, 5]),
    }),
  );

/** A head the shop sells again and again. */
export const productSchema = () =>
  keys({
    part: requiredKey(false, text("Part number; names the PDF"), "QH-100"),
    name: requiredKey(false, text("What the shop calls it"), "Wedge six"),
    revision: key(false, text("Revision", "C")),
    valid_from: key(false, date("From when this page holds")),
    price: key(false, text("Price, in words", "on request")),
    fits: key(false, texts("What it fits"), ["Launch engine"]),
    included: key(false, texts("What is included"), ["Valves", "Springs"]),
    not_included: key(false, texts("What is not included"), ["Gaskets"]),
    photo: key(false, text("Picture on the cover, beside the job", "photos/qh-100.jpg")),
    line: key(false, text("One sentence in the shop's own words"), "Each one is flowed before it leaves"),
  }).meta({ description: "A head the shop sells again and again" });

export const MASTHEADS = ["rule", "band", "plain"] as const;
export const HEROES = ["photo", "outline", "none"] as const;
export const FONTS = ["plex", "source", "open"] as const;

/** How the shop's sheets look. */
export const brandSchema = () =>
  keys({
    logo: key(false, text("Logo file beside shop.yaml: SVG of filled shapes, PNG or JPEG", "logo.svg")),
    accent: key(false, text("The one colour that all others are made from, in quotes", "#1F4E5F")),
    masthead: key(false, word(MASTHEADS, "Head of a sheet: bar of the colour, band of it, or a thin rule"), "band"),
    hero: key(false, word(HEROES, "What opens a first page and a cover, where the job has it"), "outline"),
    font: key(false, word(FONTS, "Typeface: IBM Plex Sans, Source Sans 3 or Open Sans"), "source"),
  }).meta({ description: "How the shop's sheets look" });

/** The shop's own facts. */
export const shopFactsSchema = () =>
  keys({
    name: key(false, text("Name of the shop"), "Quayside Heads"),
    strapline: key(false, text("A line under the name"), "Air through metal"),
    address: key(false, texts("Address, one line an entry"), ADDRESS),
    phone: key(false, text("Telephone"), "0100 1"),
    email: key(false, text("E-mail"), "heads@example.org"),
    web: key(false, text("Web address"), "example.org"),
    logo: key(false, text("Logo file beside shop.yaml", "logo.png")),
    accent: key(false, text("Colour of the latest stage, in quotes", "#1F4E5F")),
    responsible: key(false, text("Who answers for the sheet"), "Ruth Calloway"),
    warranty: key(false, text("The shop's own words on warranty"), "12 months on our own work"),
    cautions: key(false, texts("Cautions beyond the usual ones"), ["Thin wall at cylinder 3"]),
  }).meta({ description: "The shop" });
