import type { Job } from "../job/schema/job.ts";
import type { ShopFile } from "../job/schema/shop.ts";
import type { Head, Identity, JobText, Shop } from "./model.ts";

/** Number, title, dates and revision of a sheet. */
export function buildIdentity(job: Job, revisionByDefault: number): Identity {
  const { product } = job;
  return {
    kind: product ? "product" : "job",
    number: product?.part ?? job.job ?? "",
    title: titleOf(job),
    issued: job.issued,
    received: job.received,
    replaces: job.replaces,
    because: job.because,
    revision: product?.revision ?? job.revision ?? revisionByDefault,
    draft: job.draft ?? false,
  };
}

/** What the sheet is about: the product, the head, or the pair by its ids. */
function titleOf({ product, head, heads = [] }: Job): string {
  if (product) return product.name;
  const names = [...new Set(heads.flatMap((one) => one.name ?? []))];
  if (head?.name === undefined && names.length > 0) return joined(names);
  if (heads.length === 0) return head?.name ?? "Cylinder head";
  return `${head?.name ?? (heads.length > 1 ? "Cylinder heads" : "Cylinder head")} ${joined(heads.map((one) => one.id))}`;
}

const joined = (names: readonly string[]): string =>
  names.length > 1 ? `${names.slice(0, -1).join(", ")} and ${names.at(-1)}` : names.join("");

/** The shop's own facts. */
export function buildShop(file: ShopFile | undefined): Shop {
  const { address = [], cautions = [], ...facts } = file?.shop ?? {};
  return { ...facts, address, cautions };
}

/** Words and facts that figures do not use. */
export function buildText(job: Job): JobText {
  const { customer, product, head = {} } = job;
  const springs = job.springs;
  return {
    customer: customer && { ...customer, address: customer.address ?? [] },
    heads: (job.heads ?? []).map((one): Head => ({ ...one, cylinders: one.cylinders ?? [] })),
    head,
    product: product && {
      part: product.part,
      name: product.name,
      revision: product.revision,
      validFrom: product.valid_from,
      price: product.price,
      fits: product.fits ?? [],
      included: product.included ?? [],
      notIncluded: product.not_included ?? [],
    },
    work: Object.entries(job.work ?? {}).map(([area, items]) => ({ area, items })),
    notDone: job.not_done ?? [],
    checks: job.checks ?? [],
    alsoMeasured: (job.also_measured ?? []).map(({ what, how, ...values }) => ({
      what,
      values: Object.entries(values).flatMap(([label, value]) => (value === undefined ? [] : [{ label, value }])),
      how,
    })),
    parts: job.parts ?? [],
    springs: springs && {
      installedHeight: springs.installed_height,
      seatForce: springs.seat_force,
      openForce: springs.open_force,
      openAt: springs.open_at,
      coilBind: springs.coil_bind,
      retainerToSeal: springs.retainer_to_seal,
      mass: springs.mass,
    },
    assembly: Object.entries(job.assembly ?? {}).map(([what, value]) => ({ what, value })),
    delivered: job.delivered,
    remarks: job.remarks?.trim(),
    photos: job.photos ?? [],
    cautions: job.cautions ?? [],
  };
}
