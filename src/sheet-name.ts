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

/** `<job>_rev<n>_<template>_<head>_<issued>.pdf` in lower-case ASCII; nothing in it names the customer. */
export function sheetName({ number, revision, template, head, issued }: NameParts): string {
  return `${[slug(number), `rev${slug(String(revision))}`, slug(template), slug(head), slug(issued)].join("_")}.pdf`;
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
