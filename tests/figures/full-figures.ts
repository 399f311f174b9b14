import { FULL_JOB, FULL_SHOP } from "../job/full-job.ts";
import { SHORT_SET } from "../project/shop-texts.ts";
import { both, EXHAUST, INTAKE, job, stage, table } from "../whole/small-job.ts";
import { type WorkedOut, workOutText } from "./work-out.ts";

const SHOP = FULL_SHOP.replace("logo: logo.png, ", "");
const FILES = {
  "/shop/2025-101.yaml": SHORT_SET.replace("issued:", "may_compare: yes\nissued:"),
  "/shop/bench/2026-014-finished-1.csv": "lift;intake;exhaust\n0.100;44.0;33.1\n0.200;86.2;63.0\n",
  "/shop/bench/2026-014-pipe.tsv": "lift\texhaust\n0.100\t35.0\n0.200\t66.1\n",
};
const TEXT = FULL_JOB.replace(/^photos:.*\n/m, "");

const SWAPPED = job([
  stage("As received", both(INTAKE)),
  stage("Finished", table({ exhaust: INTAKE, intake: EXHAUST })),
]);

/** Figures of a job that uses every key there is, of the same job on a bench whose check plate read 4 % off, and of one with swapped columns. */
export const fullFigures: readonly WorkedOut[] = [TEXT, TEXT.replace("after: 150.3", "after: 156"), SWAPPED].map(
  (text) => workOutText(text, SHOP, FILES),
);
