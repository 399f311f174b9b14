/** Colours by what they are for, type and paper: a shop's brand over our defaults. All colours "#rrggbb". */
export type Theme = {
  readonly paper: Paper;
  readonly font: "plex" | "source" | "open";
  readonly colors: {
    readonly ink: string;
    readonly quiet: string;
    readonly rule: string;
    readonly accent: string;
    readonly grid: string;
    readonly paper: string;
    /** Earlier stages: their lines, open markers, the edge of a zone. */
    readonly earlier: string;
    /** Ground of the ± of a change. */
    readonly zone: string;
    /** Ground past the cam's lift, and of the cam's row in a table. */
    readonly beyond: string;
    /** Between before and after: a gain, the ring of an outline. */
    readonly tint: string;
    /** Ground of the closing band of a catalogue page. */
    readonly closing: string;
    /** Of drawings on a ground of the accent. */
    readonly shade: string;
    /** Text of 11 pt and more on a tint. */
    readonly onTint: string;
  };
  /** The latest stage first, then earlier ones; other heads apart. Each differs in dash and marker too. */
  readonly series: {
    readonly latest: SeriesStyle;
    readonly earlier: readonly SeriesStyle[];
    readonly others: readonly SeriesStyle[];
  };
};

export type SeriesStyle = {
  readonly color: string;
  /** Colour of the name on the line: the line's own where small type can be read in it, else ink. */
  readonly label: string;
  readonly width: number;
  readonly dash: readonly number[];
  readonly marker: Marker;
  readonly filled: boolean;
};
type Marker =
  | "circle"
  | "square"
  | "triangle-up"
  | "triangle-down"
  | "triangle-left"
  | "triangle-right"
  | "diamond"
  | "cross"
  | "hourglass"
  | "bow-tie"
  | "bar"
  | "post";

/** Paper in points: its size and the margins of the live area, 493.2 wide on both; `phone` is a page 9 : 16, `card` a picture. */
export type Paper = {
  readonly name: "A4" | "Letter" | "phone" | "card";
  readonly width: number;
  readonly height: number;
  /** Charts are drawn this much larger than their type and marks would make them. */
  readonly chartScale?: number;
  readonly margin: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
};

const mm = (value: number) => (value * 72) / 25.4;

/** Width of the live area on both papers [pt], so that nothing wraps differently. */
const LIVE_WIDTH = 493.2;
/** Top and bottom, 11.3 mm: most printers reach to 10. */
const END = 32;

const sheetPaper = (name: "A4" | "Letter", width: number, height: number): Paper => {
  const side = (width - LIVE_WIDTH) / 2;
  return { name, width, height, margin: { left: side, right: side, top: END, bottom: END } };
};

/** The two papers (ISO 216, ANSI Y14.1), their left and right margins equal. A card is 1080 × 1350 px at 240 an inch. */
export const papers: Readonly<Record<Paper["name"], Paper>> = {
  A4: sheetPaper("A4", mm(210), mm(297)),
  card: {
    name: "card",
    width: 324,
    height: 405,
    margin: { left: 16, right: 16, top: 16, bottom: 14 },
  },
  phone: {
    name: "phone",
    width: 396,
    height: 704,
    chartScale: 10 / 8.5,
    margin: { left: 28.4, right: 28.4, top: 28.4, bottom: 28.4 },
  },
  Letter: sheetPaper("Letter", mm(215.9), mm(279.4)),
};
