import type { PageFrame } from "./paginate.ts";

/** How full a page is. */
export type PageFill = {
  /** From the top of the room for blocks to the end of the last row, as a share of the room. */
  readonly share: number;
  /** Which of the sheet's pages it is: one that is first and last counts as first. */
  readonly place: "first" | "middle" | "last";
};

/** How full each page is; `height` is the room for blocks [pt]. */
export const pageFills = (frames: readonly PageFrame[], height: number): readonly PageFill[] =>
  frames.map((frame, i) => ({
    share: frame.height / height,
    place: i === 0 ? "first" : i < frames.length - 1 ? "middle" : "last",
  }));
