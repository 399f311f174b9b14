import type { Series } from "../sheet/content.ts";

/** Vega's size for each marker, of equal visual weight: that of a circle 5 pt across. */
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

/** Markers that Vega lacks, as paths from −1 to 1. */
const PATHS: Partial<Record<Series["style"]["marker"], string>> = {
  hourglass: "M-1,-1L1,-1L-1,1L1,1Z",
  "bow-tie": "M-1,-1L-1,1L1,-1L1,1Z",
  bar: "M-1,-0.4L1,-0.4L1,0.4L-1,0.4Z",
  post: "M-0.4,-1L0.4,-1L0.4,1L-0.4,1Z",
};

/** Half of a reading's greatest width, flag and outline included [pt]. */
export const MARKER_REACH = 5.5;

/** Style of a reading's marker: as its series, but always open if doubtful. */
export function readingMarker({ style }: Series, kind: Series["points"][number]["kind"], paper: string) {
  const open = kind === "doubtful" || !style.filled;
  return {
    shape: PATHS[style.marker] ?? style.marker,
    size: SIZES[style.marker],
    fill: open ? paper : style.color,
    color: style.color,
    width: open ? 1 : 0.75,
  };
}

/** Radius of a ring round the latest reading, for a stage that its curve stands for [pt]. */
const RING = 4.2;
/** Shares of a marker's usual size in a panel: a disc of 2.4 pt with its outline, an open marker of 2.1 pt. */
const FILLED = 0.656;
const OPEN = 0.7056;

/** Style of a marker in a flow panel. */
export function panelMarker(series: Series, kind: Series["points"][number]["kind"], paper: string) {
  const usual = readingMarker(series, kind, paper);
  if (series.ring) return { ...usual, shape: "circle", size: (2 * RING) ** 2, fill: paper, width: 1 };
  return { ...usual, size: usual.size * (usual.fill === paper ? OPEN : FILLED) };
}

/** Flag of a reading: a stroke through a doubtful one, a ring round a noisy one. */
export function readingFlag({ style }: Series, kind: Series["points"][number]["kind"]) {
  if (kind === "doubtful") return { shape: "M-1,1L1,-1", size: 72, color: style.color };
  if (kind === "noisy") return { shape: "circle", size: 90, color: style.color };
  return undefined;
}
