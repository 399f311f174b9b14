import { error } from "../../diagnostics/build.ts";
import type { JobRule } from "./rule.ts";

/** A file is a customer's job or a product of the shop. */
export const jobOrProduct: JobRule = ({ job, located }) => {
  if (job.product === undefined) {
    return job.samples === undefined
      ? []
      : [
          error("job/samples-in-job", "`samples` belong to a product", located.keySpan(["samples"]), {
            hint: "other heads to draw stand under `compare`",
          }),
        ];
  }
  const refuse = (key: "job" | "customer" | "stages", message: string, hint: string) =>
    job[key] === undefined ? [] : [error("job/job-and-product", message, located.keySpan([key]), { hint })];
  const both = refuse(
    "job",
    "both `job` and `product` stand here",
    "one file is one job or one product: keep one of the two",
  );
  if (both.length > 0) return both;
  return [
    ...refuse("customer", "a product has no customer", "take `customer` out: a catalogue page names none"),
    ...refuse(
      "stages",
      "a product has no stages of its own",
      "name the measured heads under `samples`: [ 2026-014.yaml ]",
    ),
    ...(job.samples === undefined || job.samples.length === 0
      ? [
          error("job/missing", "missing `samples`", located.keySpan(["product"]), {
            hint: "name the measured heads: `samples: [ 2026-014.yaml ]`",
          }),
        ]
      : []),
  ];
};
