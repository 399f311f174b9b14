import { z } from "zod";
import { benchSchema } from "./bench.ts";
import { paper } from "./job.ts";
import { shopFactsSchema } from "./people.ts";
import { type Declared, quantities } from "./quantities.ts";
import { reportSchema } from "./report.ts";
import { unitsSchema } from "./units.ts";

/** `shop.yaml`: the shop's own facts, and its defaults for every job. */
export const shopSchema = (declared: Declared) => {
  const q = quantities(declared);
  return z.strictObject({
    shop: shopFactsSchema().optional(),
    paper: paper().optional(),
    units: unitsSchema().optional(),
    bench: benchSchema(q).optional(),
    report: reportSchema(q).optional(),
  });
};

export type ShopFile = z.output<ReturnType<typeof shopSchema>>;
