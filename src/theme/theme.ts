/** Colours by what they are for, type and paper: a shop's brand over our defaults. All colours "#rrggbb". */
export type Theme = {
  readonly paper: Paper;
  readonly colors: {
    readonly ink: string;
    readonly quiet: string;
    readonly rule: string;
    readonly accent: string;
    readonly grid: string;
    readonly paper: string;
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
  /** Of its name beside it: the same colour where small type can be read in it, else ink. */
  readonly label: string;
  readonly width: number;
  readonly dash: readonly number[];
  readonly marker: Marker;
  readonly filled: boolean;
};
export type Marker =
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

/** Paper in points: its size and the margins of the live area, 175 × 249 mm on both; `card` is a picture. */
export type Paper = {
  readonly name: "A4" | "Letter" | "card";
  readonly width: number;
  readonly height: number;
  readonly margin: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
};
