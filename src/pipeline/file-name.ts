import { createHash } from "node:crypto";

/** What a sheet's file is named after. */
export type NameParts = {
  readonly number: string;
  readonly revision: number | string;
  readonly template: string;
  readonly head: string;
  readonly issued: string;
};

/** Longest of any one part: the whole stays far below what any file system allows. */
const LONGEST = 48;
/** Hexadecimal digits of a mark: one chance in 16 million for two texts of one slug. */
const MARK = 6;

/**
 * `<job>_rev<n>_<template>_<head>_<issued>.pdf` in lower-case ASCII; nothing in it names the customer. Number, revision and
 * template tell sheets apart, so two of them never share a name: `A/1` and `A-1` do not, `F-12` and `f-12` are one.
 */
export function sheetName({ number, revision, template, head, issued }: NameParts): string {
  return `${[exact(number), `rev${exact(String(revision))}`, exact(template), slug(head), slug(issued)].join("_")}.pdf`;
}

/** A catalogue of several products, of the day of its latest page. */
export const catalogueName = (shop: string, issued: string): string =>
  `${["catalogue", slug(shop), slug(issued)].join("_")}.pdf`;

/** A slug; with a mark of the whole text behind it where the slug alone says less than the text did. */
function exact(text: string): string {
  const plain = slug(text);
  const folded = text.trim().normalize("NFC").toLowerCase();
  return plain === folded ? plain : `${plain}-${createHash("sha256").update(folded).digest("hex").slice(0, MARK)}`;
}

/** Letters that do not come apart into a plain one and its mark. */
const PLAIN: Readonly<Record<string, string>> = {
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
    .replace(/[^\u0000-\u007f]/g, (letter) => PLAIN[letter] ?? "-")
    .replace(/[^a-z0-9]+/g, "-")
    .replace(/^-+|-+$/g, "");
  return plain.slice(0, LONGEST).replace(/-+$/, "") || "x";
}
