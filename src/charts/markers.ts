import type { Series } from "../sheet/content.ts";

/** Vega's size for each marker, chosen so that all look alike in weight: a circle of 5 pt across. */
const SIZES: Readonly<Record<Series["style"]["marker"], number>> = {
  circle: 25,
  square: 20.25,
  "triangle-up": 33,
  "triangle-down": 33,
  "triangle-left": 33,
  "triangle-right": 33,
  diamond: 38.5,
  cross: 42,
  hourglass: 30,
  "bow-tie": 30,
  bar: 42,
  post: 42,
};

/** Markers that Vega has no name for, as paths from −1 to 1. */
const PATHS: Partial<Record<Series["style"]["marker"], string>> = {
  hourglass: "M-1,-1L1,-1L-1,1L1,1Z",
  "bow-tie": "M-1,-1L-1,1L1,-1L1,1Z",
  bar: "M-1,-0.4L1,-0.4L1,0.4L-1,0.4Z",
  post: "M-0.4,-1L0.4,-1L0.4,1L-0.4,1Z",
};

/** Half of the widest a reading gets, flag and outline included [pt]. */
export const MARKER_REACH = 5.5;

/** How a reading looks: filled or open as its series is, always open where it is doubtful. */
export function markerOf({ style }: Series, kind: Series["points"][number]["kind"], paper: string) {
  const open = kind === "doubtful" || !style.filled;
  return {
    shape: PATHS[style.marker] ?? style.marker,
    size: SIZES[style.marker],
    fill: open ? paper : style.color,
    color: style.color,
    width: open ? 1 : 0.75,
  };
}

/** What is set upon a reading to flag it: a stroke through a doubtful one, a ring round a noisy one. */
export function flagOf({ style }: Series, kind: Series["points"][number]["kind"]) {
  if (kind === "doubtful") return { shape: "M-1,1L1,-1", size: 72, color: style.color };
  if (kind === "noisy") return { shape: "circle", size: 90, color: style.color };
  return undefined;
}
