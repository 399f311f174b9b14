import type { SeriesStyle, Theme } from "../theme/theme.ts";

/** A sheet before layout: its content in order, in display units and final words. */
export type Sheet = {
  readonly template: string;
  /** For the PDF's title and the top of readers' windows. */
  readonly documentTitle: string;
  readonly author?: string;
  readonly subject: string;
  /** Which sheet this is and of which figures, for a machine to compare. */
  readonly identifier: string;
  readonly language: "en";
  readonly issued: string;
  readonly theme: Theme;
  readonly furniture: Furniture;
  readonly rows: readonly SheetRow[];
  /** One page only: what does not fit is left out, lowest priority first, and `more` is printed. */
  readonly onePage: boolean;
  readonly more?: string;
  /** A picture, not a page of a document: no furniture. */
  readonly bare?: true;
};

/** Printed on every page, outside the flow of blocks. Layout adds "Page x of y" and the end mark. */
export type Furniture = {
  /** Number and revision, left; whatever ties the page to the part. */
  readonly left: string;
  readonly middle?: string;
  /** Printed across the head of every page, such as DRAFT, where no title says it. */
  readonly banner?: string;
  /** At the head of every page after the first. */
  readonly head?: { readonly name: string; readonly aside?: string; readonly draft?: true };
};

/** Blocks side by side on the grid of six columns. */
export type SheetRow = {
  readonly cells: readonly SheetCell[];
  /** How many blocks the template places in it: those that remain share the room of the others. */
  readonly asked?: number;
  readonly newPage?: boolean;
  /** Begins a page, but stands on the page before where that has room for it. */
  readonly pullUp?: boolean;
  /** Begins another head: nothing that goes over from before stands on its page. */
  readonly fresh?: boolean;
};
export type SheetCell = { readonly block: BlockContent; readonly from: number; readonly span: number };

/** A named block of a template. One without parts takes no room and is dropped before layout. */
export type BlockContent = {
  readonly name: string;
  readonly parts: readonly Part[];
  /** May be divided between pages. */
  readonly split: boolean;
  /** Higher stays longer on a one-page sheet; 100 always stays. */
  readonly priority: number;
  /** Left out of a sheet of several pages if it would need a further page. */
  readonly optional?: boolean;
  /** Order in which blocks are left out of an over-full page, the lowest first. */
  readonly gives?: number;
  /** On an over-full page, what does not fit continues at the head of the next page, over the whole width. */
  readonly goesOn?: boolean;
  /** Order in which blocks move from a page that is still over-full to the head of the next, the lowest first. */
  readonly overleaf?: number;
  /** Stands only where the block named does not stand on the sheet, or only where it does. */
  readonly without?: string;
  readonly with?: string;
};

/** Heights of a plot or picture [pt]: it is set at the least, and takes its share of what its page has left, up to the most. */
export type Grow = readonly [least: number, most: number];

export type Part =
  | Masthead
  | Cover
  | ClosingBand
  | Title
  | Hero
  | FactsRow
  | Heading
  | Paragraph
  | List
  | Facts
  | Table
  | Headline
  | ChartRow
  | FlowPanels
  | Lead
  | KeyRow
  | TrueSizeRow
  | Pictures
  | PicturePairs
  | Signatures
  | HeadPlan
  | Ticks
  | Code
  | Caution
  | Blanks
  | WriteIn;

/** The opening of a catalogue page on the shop's colour: shop and part, product and what it fits, picture or valves at the right. */
export type Cover = {
  readonly kind: "cover";
  readonly name: string;
  readonly logo?: NonNullable<Masthead["logo"]>;
  readonly aside: string;
  readonly title: string;
  readonly text: string;
  readonly picture?: Pictures["pictures"][number];
  /** Diameters in millimetres on paper. */
  readonly valves?: {
    readonly discs: readonly {
      readonly diameter: number;
      readonly throatDiameter?: number;
      readonly size: string;
      readonly throat?: string;
      readonly label: string;
    }[];
    readonly scaleBar: TrueSize["scaleBar"];
    readonly alt: string;
  };
  readonly height: number;
  readonly grow?: Grow;
};

/** The end of a catalogue page on a tint between rules: a sentence of the shop's, price and how to order. */
export type ClosingBand = {
  readonly kind: "closing-band";
  readonly quote?: string;
  readonly heading?: string;
  readonly lines: readonly { readonly text: string; readonly link?: string }[];
};

export type Masthead = {
  readonly kind: "masthead";
  readonly name: string;
  readonly strapline?: string;
  readonly lines: readonly { readonly text: string; readonly link?: string }[];
  /** On a ground of the shop's colour it stands on white. */
  readonly logo?: { readonly image: string; readonly alt: string };
  /** A bar of the shop's colour over it, a band of it behind it, or a thin rule under it. */
  readonly style?: "rule" | "band" | "plain";
};

/** Kind of document over what it is about; `aside` at the right end of the kicker's line, `under` and `note` under the title. */
export type Title = {
  readonly kind: "title";
  readonly kicker?: string;
  readonly text: string;
  readonly under?: string;
  readonly aside?: string;
  readonly note?: string;
  /** Says so at the right end of the kicker's line. */
  readonly draft?: true;
};

/** A photograph beside title and facts, cropped to their height. */
export type Hero = {
  readonly kind: "hero";
  readonly picture: Picture;
  /** An upright photograph stands here only where the job says so. */
  readonly uprightAllowed: boolean;
  readonly title: Omit<Title, "kind">;
  readonly facts: Facts["rows"];
};

/** Facts side by side between two rules, each under its label. */
export type FactsRow = { readonly kind: "facts-row"; readonly facts: Facts["rows"] };

export type Heading = { readonly kind: "heading"; readonly level: 1 | 2 | 3; readonly text: string };

/** `lead` is set semibold before the text, on the same line. */
export type Paragraph = {
  readonly kind: "paragraph";
  /** `small` is body text in the type of tables. */
  readonly style: "body" | "small" | "lead" | "quiet" | "caption";
  readonly lead?: string;
  readonly text: string;
};

export type List = {
  readonly kind: "list";
  readonly items: readonly { readonly lead?: string; readonly text: string }[];
  /** Set in the type of tables. */
  readonly compact?: true;
  /** Without dashes: each item begins with its lead. */
  readonly plain?: true;
  /** Filled squares in place of dashes. */
  readonly squares?: true;
};

/** Label and value pairs; `note` in quiet type after or under the value. */
export type Facts = {
  readonly kind: "facts";
  readonly rows: readonly { readonly label: string; readonly value: string; readonly note?: string }[];
  /** Set in the type of tables. */
  readonly compact?: true;
};

export type Table = {
  readonly kind: "table";
  readonly title?: string;
  readonly columns: readonly TableColumn[];
  /** Headings over several columns; spans sum to the number of columns, empty text for none. */
  readonly groups?: readonly { readonly text: string; readonly span: number }[];
  readonly rows: readonly (readonly TableCell[])[];
  /** The first column's cells are heads of their rows. */
  readonly rowHeads: boolean;
  /** A wider gap after every fifth row. */
  readonly fifths: boolean;
  /** The last row closes the table on a ground of its own. */
  readonly closing?: true;
  /** How many rows each group has, where rows belong together: no page parts them, and a gap stands between groups. */
  readonly together?: readonly number[];
  readonly notes: readonly string[];
};
export type TableColumn = {
  readonly title: string;
  readonly unit?: string;
  readonly align: "left" | "right" | "decimal";
  readonly weight?: number;
};
export type TableCell = {
  readonly text: string;
  readonly mark?: VerdictMark;
  /** The mark in words, for screen readers; absent where the text states it already. */
  readonly markLabel?: string;
  readonly strong?: boolean;
  readonly quiet?: boolean;
  /** A box stands round it; why, in words for screen readers. */
  readonly boxed?: string;
  /** Quiet, after the text and its mark: "± 3.3". */
  readonly plusMinus?: string;
};

/** Drawn shape beside a verdict's words: up, down, level, open (within ±), not known. Never a colour alone. */
export type VerdictMark = "up" | "down" | "level" | "open" | "unknown";

/** The big numbers. */
export type Headline = {
  readonly kind: "headline";
  /** What all of them are of, where their labels do not say it. */
  readonly title?: string;
  /** No rules over the cells, one under all. */
  readonly ruledBelow?: true;
  /** One for all cells. */
  readonly verdict?: { readonly mark: VerdictMark; readonly text: string };
  /** For a page read on a phone: verdicts at 20 pt, two cells across. */
  readonly large?: boolean;
  readonly cells: readonly {
    readonly label: string;
    readonly number: string;
    readonly unit?: string;
    readonly was?: string;
    readonly verdict?: { readonly mark: VerdictMark; readonly text: string };
    readonly note?: string;
  }[];
};

/** Charts side by side under shared axes, with one caption. */
export type ChartRow = {
  readonly kind: "charts";
  readonly charts: readonly { readonly title: string; readonly chart: Chart; readonly alt: string }[];
  /** Height of each chart [pt], axes included, title not. */
  readonly height: number;
  /** Range of heights to fill the page; replaces `height`. */
  readonly grow?: Grow;
  /** Titles are set as headings. */
  readonly headed?: true;
  readonly caption?: string;
};

/** Panels side by side, each under the number that it proves, with one caption. */
export type FlowPanels = {
  readonly kind: "flow-panels";
  readonly panels: readonly FlowPanelCell[];
  /** Height of each panel [pt], the labels of its x axis included, the words above it not. */
  readonly height: number;
  /** Range of heights to fill the page; replaces `height`. */
  readonly grow?: Grow;
  /** Height of each strip under a panel [pt]. */
  readonly stripHeight?: number;
  readonly caption?: string;
};
export type FlowPanelCell = {
  readonly heading: string;
  readonly number?: { readonly text: string; readonly unit: string };
  /** At the right end of the number's line; without a mark where there is nothing to mark. */
  readonly verdict?: { readonly mark?: VerdictMark; readonly text: string };
  /** Quiet, at the right end of the line below. */
  readonly was?: string;
  readonly chart: FlowPanel;
  readonly alt: string;
  /** Change at each lift, under the panel on the same x axis. */
  readonly strip?: { readonly title: string; readonly chart: DotStrip; readonly alt: string };
};

/** The one sentence that a page says first; quiet pieces are its ±. */
export type Lead = {
  readonly kind: "lead";
  readonly phrases: readonly { readonly text: string; readonly quiet?: true }[];
};

/** Label and value pairs side by side, ruled above: the value large, its note quiet after it or under it. */
export type KeyRow = {
  readonly kind: "key-row";
  readonly pairs: readonly { readonly label: string; readonly value: string; readonly note?: string }[];
};

/** Drawings at 1 : 1 side by side as far as they fit, with one caption; each goes without where it is larger than the room. */
export type TrueSizeRow = {
  readonly kind: "true-size";
  readonly figures: readonly {
    /** Empty where the block's heading says it. */
    readonly title: string;
    readonly drawing: TrueSize;
    readonly alt: string;
    /** Printed in place of a drawing that is larger than the room. */
    readonly fallback: string;
  }[];
  readonly caption: string;
};

/** Shapes in millimetres on paper, y downwards from any origin, with dimensions to be set beside them. */
export type TrueSize = {
  readonly shapes: readonly DrawnShape[];
  readonly labels: readonly DrawnLabel[];
  readonly scaleBar: { readonly length: number; readonly parts: number; readonly label: string };
};
export type DrawnShape = {
  readonly steps: readonly DrawnStep[];
  readonly stroke?: Pick<SeriesStyle, "color" | "width" | "dash">;
  readonly fill?: { readonly color: string };
};
export type DrawnStep =
  | { readonly kind: "move" | "line"; readonly to: readonly [number, number] }
  | {
      readonly kind: "curve";
      readonly first: readonly [number, number];
      readonly second: readonly [number, number];
      readonly to: readonly [number, number];
    }
  | { readonly kind: "close" };
/** Set right of the drawing, one line under the other, with a thin line to the place it names. */
export type DrawnLabel = {
  readonly lines: readonly string[];
  readonly at: readonly [number, number];
  /** Set on its place instead, lines centred, where they are no wider than this [mm]. */
  readonly inside?: number;
  /** Colour of the words; ink by default. */
  readonly color?: string;
};

/** Pictures side by side, as many in a row as bring them nearest to `height` [pt]; none is taller. */
export type Pictures = {
  readonly kind: "pictures";
  readonly pictures: readonly Picture[];
  readonly height: number;
};

export type Picture = {
  readonly image: string;
  readonly alt: string;
  readonly caption?: string;
  /** Shares of its width and height: stays in the middle where it is cropped. */
  readonly focus?: readonly [number, number];
};

/** Before and after side by side at one size, under the names of their stages. */
export type PicturePairs = {
  readonly kind: "picture-pairs";
  readonly heads: readonly [before: string, after: string];
  readonly pairs: readonly {
    readonly before?: Picture;
    readonly after?: Picture;
    readonly lead: string;
    readonly text: string;
  }[];
};

/** Places to sign. */
export type Signatures = {
  readonly kind: "signatures";
  readonly labels: readonly { readonly role: string; readonly name?: string }[];
};

/** A plan to find each valve on the head, its values beside or under it; tagged as a table, a row a valve. */
export type HeadPlan = {
  readonly kind: "head-plan";
  /** What the values are, in their order. */
  readonly names: readonly string[];
  /** In numbering order. */
  readonly cylinders: readonly { readonly intake: readonly PlanValve[]; readonly exhaust: readonly PlanValve[] }[];
  /** What the numbering counts from, as the job says it. */
  readonly from?: string;
};
export type PlanValve = {
  /** Cylinder, with a letter of twin valves. */
  readonly label: string;
  readonly side: "in" | "ex";
  /** One for each name; `boxed` says in words why a box stands round it. */
  readonly values: readonly { readonly text: string; readonly strong?: true; readonly boxed?: string }[];
};

/** Cautions with boxes to tick, in two columns. */
export type Ticks = { readonly kind: "ticks"; readonly cautions: readonly Caution[] };

/** A QR code: rows of cells, true for dark. */
export type Code = {
  readonly kind: "code";
  readonly cells: readonly (readonly boolean[])[];
  readonly alt: string;
  /** Left of the code where there is room. */
  readonly caption?: string;
};

export type Caution = {
  readonly kind: "caution";
  readonly signal: "Note" | "Caution";
  readonly text: string;
  /** On paper a box to tick stands before a Caution; on a screen, where nobody ticks, a bar. */
  readonly tick?: true;
};

/** Labelled places to write in, a rule under each; what is known already is printed there. */
export type Blanks = { readonly kind: "blanks"; readonly rows: readonly (readonly Blank[])[] };
export type Blank = {
  readonly label: string;
  /** Printed at the right end of the rule. */
  readonly unit?: string;
  readonly value?: string;
  /** Share of the row's width, relative to the others. */
  readonly share: number;
  /** Rules to write on, one under the other. */
  readonly lines: number;
};

/** A table of boxes high enough for a pencil. A cell without text is for writing in. */
export type WriteIn = {
  readonly kind: "write-in";
  readonly columns: readonly { readonly title: string; readonly unit?: string; readonly share: number }[];
  /** Headings over several columns; spans sum to the number of columns, empty text for none. */
  readonly groups?: readonly { readonly text: string; readonly span: number }[];
  /** The first cell heads its row. */
  readonly rows: readonly (readonly string[])[];
};

/** What a chart shows, in display units. */
export type Chart = LineChart | BarChart | FlowPanel | DotStrip | SpreadChart;

export type Axis = {
  readonly title: string;
  readonly start: number;
  readonly end: number;
  /** Where ticks and their labels stand, in the axis' unit. */
  readonly ticks: readonly number[];
  readonly decimals: number;
};

/** Flow, coefficient, gas speed or opening: one panel, lines with readings on them. */
export type LineChart = {
  readonly kind: "line";
  readonly x: Axis;
  readonly y: Axis;
  /** A second scale along the top: lift ÷ diameter. `at` is in x's unit. */
  readonly top?: { readonly title: string; readonly ticks: readonly { readonly at: number; readonly label: string }[] };
  readonly series: readonly Series[];
  /** Filled between two lines: range over a sample, 0.45–0.55 Mach. */
  readonly bands?: readonly {
    readonly label?: string;
    readonly points: readonly { readonly x: number; readonly low: number; readonly high: number }[];
  }[];
  /** Lines across the panel with a word: net lift of the cam, a limit. */
  readonly marks?: readonly { readonly axis: "x" | "y"; readonly at: number; readonly label: string }[];
};

export type Series = {
  readonly name: string;
  /** Set at the line's end; empty for none. */
  readonly label: string;
  /** Its readings are rings round those of the latest: one curve for both. */
  readonly ring?: true;
  /** Where along x the label belongs instead, for lines that end in one point. */
  readonly labelAt?: number;
  readonly style: SeriesStyle;
  /** Drawn straight from point to point; already sampled from the interpolant. Empty for points only. */
  readonly curve: readonly (readonly [number, number])[];
  readonly points: readonly {
    readonly x: number;
    readonly y: number;
    readonly kind: "good" | "doubtful" | "noisy";
    /** Half length of the error bar, in y's unit. */
    readonly plusMinus?: number;
  }[];
};

/** Change at each lift, or flow per cylinder. Bars start at zero; `mark` stands at the bar's end. */
export type BarChart = {
  readonly kind: "bar";
  readonly x: { readonly title: string; readonly categories: readonly string[] };
  readonly y: Axis;
  readonly bars: readonly {
    readonly category: string;
    readonly group?: string;
    readonly value: number;
    readonly color: string;
    /** Hollow: not clear of the ± . */
    readonly hollow: boolean;
    readonly plusMinus?: number;
    readonly label?: string;
  }[];
  readonly groups: readonly string[];
};

/** A stretch of a ribbon: `short` where its words have no room. */
export type RibbonStretch = {
  readonly from: number;
  readonly to: number;
  readonly text: string;
  readonly short: string;
  readonly look: "accent" | "outline" | "zone";
};

/** A place across a panel, and how far a ground reaches there. */
export type Reach = { readonly x: number; readonly low: number; readonly high: number };

/**
 * Lines with readings, such as flow against lift under its number: the y axis' title is its unit, said after the topmost label; labels stand
 * on the grid lines inside the plot, the x axis' title at the left end of its labels. The end of the y axis is no tick.
 */
export type FlowPanel = {
  readonly kind: "flow-panel";
  readonly x: Axis;
  readonly y: Axis;
  /** The latest is the last. */
  readonly series: readonly Series[];
  /** Tinted: what changed between first and latest. */
  readonly gain?: readonly Reach[];
  /** A band of common practice, behind all else. */
  readonly zone?: readonly Reach[];
  /** Heights at which a dotted line lies across the plot. */
  readonly levels?: readonly number[];
  /** Readings ringed, with their value beside them. */
  readonly rings?: readonly { readonly x: number; readonly y: number; readonly label: string }[];
  /** A bar of words under the plot, over the labels of x: what holds over each stretch, never by colour alone. */
  readonly ribbon?: readonly RibbonStretch[];
  /** The customer's cam; `bar` reaches from before to after. */
  readonly cam?: { readonly at: number; readonly bar?: { readonly from: number; readonly to: number } };
};

/** Each part as a dot about the mean of all, a row a lift, on the ground of one reading's ±. */
export type SpreadChart = {
  readonly kind: "spread";
  readonly groups: readonly {
    readonly name: string;
    readonly rows: readonly {
      readonly label: string;
      /** Deviations from the mean, and the ± of one reading [%]. */
      readonly dots: readonly number[];
      readonly zone?: number;
      readonly value: string;
      readonly strong?: true;
    }[];
  }[];
  /** The axis ends at plus and minus this [%]; a tick at plus and minus `tick`. */
  readonly reach: number;
  readonly tick: number;
  readonly color: string;
  /** Titles under the labels of the rows, and under the values. */
  readonly x: { readonly title: string };
  readonly y: { readonly title: string };
};

/** Dots about zero on the ground of their ±: change at each lift, with stems, or port to port about the mean. */
export type DotStrip = {
  readonly kind: "dot-strip";
  readonly x: Axis;
  readonly y: Axis;
  readonly color: string;
  readonly stems: boolean;
  readonly zone: readonly Reach[];
  /** Hollow: within the ±. */
  readonly dots: readonly { readonly x: number; readonly y: number; readonly hollow: boolean }[];
  /** Places where nothing is compared: a dash. */
  readonly gaps?: readonly number[];
  readonly cam?: { readonly at: number };
};
