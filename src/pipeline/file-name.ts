import { createHash } from "node:crypto";
import { DEFAULTS } from "../job/defaults.ts";
import type { Model } from "../model/model.ts";
import type { Project } from "../project/project.ts";
import type { Overrides } from "./evaluate.ts";

/** Templates that a job is printed with, without duplicates: from the command line, else from the job, else the default. */
export function templatesOf({ job }: Pick<Project, "job">, overrides: Overrides): readonly string[] {
  const { sheet } = DEFAULTS;
  const usual = job.heads_of ? sheet.headsOf : job.product === undefined ? sheet.job : sheet.product;
  return [...new Set(overrides.templates ?? job.sheet ?? usual)];
}

/** File name of a sheet. It does not depend on the rendering, so a batch finds collisions before it draws. */
export function sheetFileName(
  project: Project,
  model: Pick<Model, "identity">,
  template: string,
  ending: "pdf" | "png" | "eml" = "pdf",
): string {
  const { number, revision, title, issued, draft } = model.identity;
  const { head, product } = project.job;
  const name = { number, revision, template, head: head?.name ?? product?.name ?? title, issued };
  return formatFileName({ ...name, draft: draft && template !== "form", ending });
}

/** Parts of a sheet's file name. */
type NameParts = {
  readonly number: string;
  readonly revision: number | string;
  readonly template: string;
  readonly head: string;
  readonly issued: string;
  /** A draft has a name of its own, so that it never replaces what was issued. */
  readonly draft?: boolean;
  readonly ending?: string;
};

/** Longest part [characters]: the whole name stays far below the 255 that file systems allow. */
const LONGEST_PART = 48;
/** Hexadecimal digits of the hash: two texts with one slug collide with a chance of one in 16 million. */
const HASH_DIGITS = 6;

/**
 * `<job>_rev<n>_<template>_<head>_<issued>.pdf`, of a draft `…_<issued>_draft.pdf`, in lower-case ASCII; nothing in it names the
 * customer. Number, revision and template identify a sheet: `A/1` and `A-1` get different names, `F-12` and `f-12` the same one.
 */
export function formatFileName(parts: NameParts): string {
  const { number, revision, template, head, issued, draft = false, ending = "pdf" } = parts;
  const sheet = [distinctSlug(number), `rev${distinctSlug(String(revision))}`, distinctSlug(template)];
  return `${[...sheet, slug(head), slug(issued)].join("_")}${draft ? "_draft" : ""}.${ending}`;
}

/** File name of a catalogue; `issued` is the date of its latest page. One with a draft product is a draft. */
export const catalogueFileName = (shop: string, issued: string, draft: boolean): string =>
  `catalogue_${slug(shop)}_${slug(issued)}${draft ? "_draft" : ""}.pdf`;

/** A slug, with a hash of the text appended where the slug loses part of the text. */
function distinctSlug(text: string): string {
  const plain = slug(text);
  const folded = text.trim().normalize("NFC").toLowerCase();
  return plain === folded
    ? plain
    : `${plain}-${createHash("sha256").update(folded).digest("hex").slice(0, HASH_DIGITS)}`;
}

/** Letters that NFKD does not decompose into a base letter and a diacritic. */
const BASE_LETTERS: Readonly<Record<string, string>> = {
  ł: "l",
  ø: "o",
  đ: "d",
  ð: "d",
  þ: "th",
  æ: "ae",
  œ: "oe",
  ß: "ss",
  ı: "i",
};

function slug(text: string): string {
  const plain = text
    .toLowerCase()
    .normalize("NFKD")
    .replace(/\p{Mark}/gu, "")
    .replace(/[^\u0000-\u007f]/g, (letter) => BASE_LETTERS[letter] ?? "-")
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "");
  return plain.slice(0, LONGEST_PART).replace(/-+$/, "") || "x";
}
