import { FULL_JOB, FULL_PRODUCT, FULL_SHOP } from "../job/full-job.ts";
import { jpeg, png } from "../project/pictures.ts";
import { SHORT_SET } from "../project/shop-texts.ts";

/** Every key there is, nothing held back, in a shop whose files are all there. */
export const LONG_JOB = FULL_JOB.replace(/hold_back: \[.*?\]/, "hold_back: []")
  .replace("rpm: { from: 2500, to: 7000 }", "rpm: { from: 2500, to: 3000 }")
  .replace(", intake_centre: 104 deg }", " }");
export const LONG_PRODUCT = FULL_PRODUCT;
export const LONG_SHOP = FULL_SHOP;

const SAMPLE = SHORT_SET.replace("issued:", "may_compare: yes\nissued:");

/** What the job, the product and the shop name, beside them. */
export const LONG_FILES: Readonly<Record<string, string | Uint8Array>> = {
  "/shop/shop.yaml": LONG_SHOP,
  "/shop/2025-101.yaml": SAMPLE,
  "/shop/2026-014.yaml": SAMPLE,
  "/shop/2026-021.yaml": SAMPLE.replaceAll("44.0", "44.4").replaceAll("166.0", "167.2"),
  "/shop/bench/2026-014-finished-1.csv": "lift;intake;exhaust\n0.100;44.0;33.1\n0.200;86.2;63.0\n",
  "/shop/bench/2026-014-pipe.tsv": "lift\texhaust\n0.100\t35.0\n0.200\t66.1\n",
  "/shop/photos/2026-014-chamber.jpg": jpeg({ width: 640, height: 480 }),
  "/shop/logo.png": png({ width: 4, height: 2 }),
};
