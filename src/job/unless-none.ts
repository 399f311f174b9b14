/** What is bolted on or fitted; undefined where the word is `none`. */
export const unlessNone = (what: string | undefined): string | undefined =>
  what?.trim().toLowerCase() === "none" ? undefined : what;
