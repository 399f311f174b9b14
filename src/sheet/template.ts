/** A checked template: which blocks a sheet holds, in what order, and where on the grid of six columns. */
export type Template = {
  readonly name: string;
  readonly onePage: boolean;
  readonly paper?: "A4" | "Letter";
  readonly rows: readonly TemplateRow[];
};

export type TemplateRow = { readonly cells: readonly TemplateCell[]; readonly newPage: boolean };

export type TemplateCell = {
  readonly block: string;
  /** First column, 0 to 5, and how many columns wide. */
  readonly from: number;
  readonly span: number;
  /** Height of charts and pictures in the block [pt]. */
  readonly height?: number;
  /** Higher stays longer on a one-page sheet. */
  readonly priority?: number;
  /** In place of the block's own heading. */
  readonly title?: string;
  /** May be divided between pages. */
  readonly split?: boolean;
  /** Only where it needs no further page. */
  readonly optional?: boolean;
};
