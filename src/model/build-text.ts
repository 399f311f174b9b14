import type { Job } from "../job/schema/job.ts";
import type { ShopFile } from "../job/schema/shop.ts";
import type { Newtons } from "../units/quantity.ts";
import { omitUndefined } from "../util/omit-undefined.ts";
import type { Head, Identity, JobText, Shop, Springs, ValveTrainLimits } from "./model.ts";

/** Number, title, dates and revision of a sheet. */
export function buildIdentity(job: Job, revisionByDefault: number): Identity {
  const { product } = job;
  return {
    kind: product ? "product" : "job",
    number: product?.part ?? job.job ?? "",
    title: sheetTitle(job),
    issued: job.issued,
    received: job.received,
    replaces: job.replaces,
    because: job.because,
    revision: product?.revision ?? job.revision ?? revisionByDefault,
    draft: job.draft ?? false,
  };
}

/** Title of a sheet: the product, the head, or the pair with its ids. */
function sheetTitle({ product, head, heads = [] }: Job): string {
  if (product) return product.name;
  const names = [...new Set(heads.flatMap((one) => one.name ?? []))];
  if (head?.name === undefined && names.length > 0) return joinNames(names);
  if (heads.length === 0) return head?.name ?? "Cylinder head";
  return `${head?.name ?? (heads.length > 1 ? "Cylinder heads" : "Cylinder head")} ${joinNames(heads.map((one) => one.id))}`;
}

const joinNames = (names: readonly string[]): string =>
  names.length > 1 ? `${names.slice(0, -1).join(", ")} and ${names.at(-1)}` : names.join("");

export function buildShop(file: ShopFile | undefined): Shop {
  const { address = [], cautions = [], ...facts } = file?.shop ?? {};
  return { ...facts, ...omitUndefined(file?.brand ?? {}), address, cautions };
}

/** Text and facts that no figure depends on. */
export function buildText(job: Job, shopLimits: JobLimits = {}): JobText {
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
      photo: product.photo,
      line: product.line,
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
    springs: springs && buildSprings(springs),
    ...(springs?.intake || springs?.exhaust
      ? {
          springsBySide: {
            intake: buildSprings({ ...springs, ...omitUndefined(springs.intake ?? {}) }),
            exhaust: buildSprings({ ...springs, ...omitUndefined(springs.exhaust ?? {}) }),
          },
        }
      : {}),
    guides: job.guides,
    valveTrainLimits: buildLimits({ ...shopLimits, ...omitUndefined(job.valve_train_limits ?? {}) }),
    agreed: job.agreed ?? [],
    opinion: job.opinion?.trim(),
    assembly: Object.entries(job.assembly ?? {}).map(([what, value]) => ({ what, value })),
    delivered: job.delivered,
    remarks: job.remarks?.trim(),
    photos: job.photos ?? [],
    cautions: job.cautions ?? [],
  };
}

type JobLimits = NonNullable<Job["valve_train_limits"]>;

const buildSprings = (stated: Omit<NonNullable<Job["springs"]>, "intake" | "exhaust">): Springs => ({
  part: stated.part,
  rate: stated.rate,
  installedHeight: stated.installed_height,
  seatForce: stated.seat_force,
  openForce: stated.open_force,
  openAt: stated.open_at,
  coilBind: stated.coil_bind,
  retainerToSeal: stated.retainer_to_seal,
  setUpFor: stated.set_up_for,
  mass: stated.mass,
});

function buildLimits(stated: JobLimits): ValveTrainLimits {
  const range = (limits: readonly Newtons[] | undefined) => limits && ([limits[0]!, limits[1]!] as const);
  return omitUndefined({
    alike: stated.alike,
    guide: stated.guide,
    runout: stated.runout,
    seatForce: range(stated.seat_force),
    openForce: range(stated.open_force),
    coilBind: stated.coil_bind,
    retainerToSeal: stated.retainer_to_seal,
  });
}
