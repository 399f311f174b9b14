import type { Sheet } from "../sheet/content.ts";
import type { Weight } from "../text/measure.ts";

/** One setting of type: size on lead, both in points. */
export type Type = { readonly size: number; readonly lead: number; readonly weight: Weight };

/** Every size that stands on a sheet. Type is never shrunk to fit. */
export const types = {
  number: { size: 24, lead: 26, weight: "semibold" },
  /** A number that stands on its picture, at most two a page. */
  bigNumber: { size: 34, lead: 36, weight: "semibold" },
  /** The one sentence that a page says first. */
  opening: { size: 15, lead: 20, weight: "medium" },
  draft: { size: 15, lead: 20, weight: "semibold" },
  verdict: { size: 12, lead: 15, weight: "semibold" },
  keyValue: { size: 12, lead: 15, weight: "semibold" },
  verdictLarge: { size: 20, lead: 24, weight: "semibold" },
  title: { size: 22, lead: 26, weight: "semibold" },
  masthead: { size: 13, lead: 17, weight: "semibold" },
  /** The product on its cover, and what it fits. */
  coverTitle: { size: 31, lead: 34, weight: "semibold" },
  cover: { size: 10.5, lead: 14, weight: "regular" },
  /** The shop's name on a band of its colour. */
  bandName: { size: 15, lead: 19, weight: "semibold" },
  kicker: { size: 9, lead: 12, weight: "semibold" },
  section: { size: 11, lead: 14, weight: "semibold" },
  lead: { size: 11, lead: 14, weight: "regular" },
  body: { size: 10.5, lead: 14, weight: "regular" },
  strong: { size: 10.5, lead: 14, weight: "semibold" },
  table: { size: 9, lead: 12, weight: "regular" },
  tableStrong: { size: 9, lead: 12, weight: "semibold" },
  caption: { size: 8.5, lead: 11, weight: "regular" },
  foot: { size: 8.5, lead: 11, weight: "regular" },
} as const satisfies Record<string, Type>;

export type TypeSizes = Readonly<Record<keyof typeof types, Type>>;

/** On a page read on a phone at about 1 : 1: nothing is under 9. */
export const phoneTypes: TypeSizes = {
  ...types,
  number: { size: 24, lead: 27, weight: "semibold" },
  bigNumber: { size: 36, lead: 38, weight: "semibold" },
  verdict: { size: 20, lead: 24, weight: "semibold" },
  keyValue: { size: 12, lead: 16, weight: "semibold" },
  title: { size: 20, lead: 24, weight: "semibold" },
  masthead: { size: 15, lead: 19, weight: "semibold" },
  kicker: { size: 10, lead: 13, weight: "semibold" },
  section: { size: 12, lead: 16, weight: "semibold" },
  lead: { size: 12, lead: 16, weight: "regular" },
  body: { size: 12, lead: 16, weight: "regular" },
  strong: { size: 12, lead: 16, weight: "semibold" },
  table: { size: 12, lead: 16, weight: "regular" },
  tableStrong: { size: 12, lead: 16, weight: "semibold" },
  caption: { size: 10, lead: 13, weight: "regular" },
  foot: { size: 9, lead: 12, weight: "regular" },
};

/** Type of a paper, and whether it is read on a phone. */
export const typeLook = ({
  name,
}: Pick<Sheet["theme"]["paper"], "name">): { readonly types: TypeSizes; readonly phone: boolean } =>
  name === "phone" ? { types: phoneTypes, phone: true } : { types, phone: false };

/** The grid of six columns: with five gutters they are the live area, 493.2 wide [pt]. */
export const grid = { columns: 6, column: 423.2 / 6, gutter: 14 } as const;

/** White space, in points. */
export const space = {
  /** Between rows: the least, what they get before anything grows, and the most after all has grown. */
  row: 8,
  rowUsual: 12,
  rowMost: 20,
  part: 6,
  caution: 3,
  beforeHeading: 14,
  afterHeading: 4,
  afterTitle: 3,
  fifth: 4.5,
  cell: 10,
} as const;
