import { error, warning } from "../../diagnostics/build.ts";
import type { JobRule, ShopRule } from "./rule.ts";

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

/** Each head of a pair has an id and cylinders of its own. */
export const heads: JobRule = ({ job, located }) => {
  const seenIds = new Set<string>();
  const seenCylinders = new Set<number>();
  return (job.heads ?? []).flatMap((head, index) => {
    const faults = seenIds.has(head.id)
      ? [error("job/head-id", `two heads have the id \`${head.id}\``, located.span(["heads", index, "id"]))]
      : [];
    seenIds.add(head.id);
    const shared = (head.cylinders ?? []).flatMap((cylinder, at) => {
      const twice = seenCylinders.has(cylinder);
      seenCylinders.add(cylinder);
      return twice
        ? [
            error(
              "job/head-cylinder",
              `cylinder ${cylinder} is named twice`,
              located.span(["heads", index, "cylinders", at]),
            ),
          ]
        : [];
    });
    return [...faults, ...shared];
  });
};

/** A corrected sheet states what it replaces, and why. */
export const revisionReason: JobRule = ({ job, located }) => {
  if (job.product !== undefined || (job.revision ?? 1) === 1) return [];
  const lacks = (["replaces", "because"] as const).filter((key) => job[key] === undefined);
  if (lacks.length === 0) return [];
  const names = lacks.map((key) => `\`${key}\``).join(" and ");
  return [
    error("job/revision-reason", `revision ${job.revision} needs ${names}`, located.span(["revision"]), {
      hint: "write `replaces:` with what this sheet replaces, and `because:` with why; both are printed",
    }),
  ];
};

/** A colour is written as six hexadecimal digits. */
export const accent: ShopRule = ({ shop, located }) =>
  (["shop", "brand"] as const).flatMap((map) => {
    const typed = shop[map]?.accent;
    if (typed === undefined || /^#[0-9a-f]{6}$/i.test(typed)) return [];
    return [
      error("job/accent", `\`${typed}\` is not a colour`, located.span([map, "accent"]), {
        hint: 'write it in quotes with six digits: "#1F4E5F"',
      }),
    ];
  });

/** Logo and colour may stand under `shop` still; under `brand` they win. */
export const brandTwice: ShopRule = ({ shop, located }) =>
  (["logo", "accent"] as const).flatMap((name) => {
    if (shop.shop?.[name] === undefined || shop.brand?.[name] === undefined) return [];
    const message = `\`${name}\` stands under \`shop\` and under \`brand\`: that of \`brand\` is used`;
    return [warning("job/brand-twice", message, located.keySpan(["shop", name]), { hint: "delete this one" })];
  });
