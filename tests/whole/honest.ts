import type { Lie } from "./lie-cases.ts";

/** What the sheet says of its own words and marks is no claim. */
const EXPLAINED = /Clear gain, clear loss: [^.]*\.|Its mark says clear gain, clear loss or within repeatability\./g;

export const claims = (text: string): string => text.replaceAll(EXPLAINED, "");

/** What is wrong with a text: a lie that stands in it, or a truth that does not. */
export function honest({ said, absent }: Lie, text: string): readonly string[] {
  const left = claims(text);
  return [
    ...absent.flatMap((one) => (one.test(left) ? [`stands there: ${one.exec(left)}`] : [])),
    ...said.flatMap((one) => (left.includes(one) ? [] : [`is missing: ${one}`])),
  ];
}
