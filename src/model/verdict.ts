/** What is said of a change: gain or loss of one port, higher or lower than another head. */
export type Verdict =
  | "clear gain"
  | "clear loss"
  | "clearly higher"
  | "clearly lower"
  | "within repeatability"
  | "too few repeats";

/** Whether a verdict is a clear difference; not where it is withheld. */
export const isClear = (verdict: Verdict | undefined): boolean =>
  verdict !== undefined && verdict !== "within repeatability" && verdict !== "too few repeats";
