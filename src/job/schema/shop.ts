import type { z } from "zod";
import { memoize } from "../../util/memoize.ts";
import { benchSchema } from "./bench.ts";
import { paper } from "./job.ts";
import { key, keys } from "./keys.ts";
import { brandSchema, shopFactsSchema } from "./people.ts";
import { reportSchema } from "./report.ts";
import { UNITS, unitsSchema } from "./units.ts";
import { valveTrainLimitsSchema } from "./valve-train.ts";

const buildSchema = () =>
  keys({
    shop: key(false, shopFactsSchema(), { name: "Quayside Heads", phone: "0100 1" }),
    brand: key(false, brandSchema(), { logo: "logo.svg", masthead: "band" }),
    paper: key(false, paper()),
    units: key(false, unitsSchema(), UNITS),
    bench: key(false, benchSchema(), { test_pressure: "28 inH2O" }),
    report: key(false, reportSchema(), { test_pressure: "28 inH2O" }),
    valve_train_limits: key(false, valveTrainLimitsSchema(), { alike: 0.005, guide: 0.0025 }),
  });

/** `shop.yaml`: the shop's own facts, and its defaults for every job. */
export const shopSchema = memoize(buildSchema, { max: 1, key: () => "shop" });

export type ShopFile = z.output<ReturnType<typeof shopSchema>>;
