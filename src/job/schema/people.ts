import { z } from "zod";
import { count, date, text, texts } from "./plain.ts";

/** Whose head it is. */
export const customerSchema = () =>
  z
    .strictObject({
      name: text("Who brought the head"),
      email: text("E-mail").optional(),
      phone: text("Telephone").optional(),
      address: texts("Address, one line an entry").optional(),
      reference: text("The customer's own reference").optional(),
    })
    .meta({ description: "Whose head it is" });

/** The head on the bench, or what a pair shares. */
export const headSchema = () =>
  z
    .strictObject({
      name: text("What the porter calls it").optional(),
      casting: text("Casting mark").optional(),
      stamped: text("Mark stamped into this part").optional(),
      material: text("What it is made of", "aluminium").optional(),
      condition: text("Condition on arrival").optional(),
      numbering: text("How cylinders are counted", "cylinder 1 at the timing side").optional(),
    })
    .meta({ description: "The head" });

/** Heads come in pairs. */
export const headsSchema = () =>
  z
    .array(
      z.strictObject({
        id: text("Short name of this one of the pair", "L"),
        name: text("What the porter calls it").optional(),
        casting: text("Casting mark").optional(),
        stamped: text("Mark stamped into this part").optional(),
        cylinders: z.array(count("Cylinder")).meta({ description: "Cylinders it serves" }).optional(),
      }),
    )
    .meta({ description: "Several heads of one job, instead of one" });

/** A head the shop sells again and again. */
export const productSchema = () =>
  z
    .strictObject({
      part: text("Part number; names the PDF"),
      name: text("What the shop calls it"),
      revision: text("Revision", "C").optional(),
      valid_from: date("From when this page holds").optional(),
      price: text("Price, in words", "on request").optional(),
      fits: texts("What it fits").optional(),
      included: texts("What is included").optional(),
      not_included: texts("What is not included").optional(),
    })
    .meta({ description: "A head the shop sells again and again" });

/** The shop's own facts. */
export const shopFactsSchema = () =>
  z
    .strictObject({
      name: text("Name of the shop").optional(),
      strapline: text("A line under the name").optional(),
      address: texts("Address, one line an entry").optional(),
      phone: text("Telephone").optional(),
      email: text("E-mail").optional(),
      web: text("Web address").optional(),
      logo: text("Logo file beside shop.yaml", "logo.png").optional(),
      accent: text("Colour of the latest stage, in quotes", "#1F4E5F").optional(),
      responsible: text("Who answers for the sheet").optional(),
      warranty: text("The shop's own words on warranty").optional(),
      cautions: texts("Cautions beyond the usual ones").optional(),
    })
    .meta({ description: "The shop" });
