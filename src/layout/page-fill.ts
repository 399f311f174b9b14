import type { FlowedPage } from "./typeset-rows.ts";

/** How full a page is. */
export type PageFill = {
  /** From the top of the room for blocks to the end of the last row, as a share of the room. */
  readonly share: number;
  /** Which of the sheet's pages it is: one that is first and last counts as first. */
  readonly place: "first" | "middle" | "last";
  /** Why it is not full: all on it has grown, or the next piece of a row that goes on overleaf was too tall for it. */
  readonly reason?: "grown" | "divided";
};

/** Left over on a page that is full [pt]: heights are shared out to a hundredth. */
const FULL = 0.1;

/** How full each page is after growth. */
export const pageFills = (frames: readonly FlowedPage[]): readonly PageFill[] =>
  frames.map((frame, i) => ({
    share: frame.height / frame.room,
    place: i === 0 ? "first" : i < frames.length - 1 ? "middle" : "last",
    ...(frame.room - frame.height <= FULL
      ? {}
      : { reason: frame.rows.every(({ whole }) => whole) ? "grown" : "divided" }),
  }));
