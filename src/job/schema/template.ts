import { z } from "zod";
import { memoize } from "../../util/memoize.ts";
import { key, keys, requiredKey } from "./keys.ts";
import { count, flag, text, word } from "./plain.ts";

/** Columns of the page's grid. */
export const GRID_COLUMNS = 6;

const blockOptions = () => ({
  span: key(false, count(`Columns of the grid's ${GRID_COLUMNS} that it takes; none said: equal shares`)),
  height: key(false, count("Height in points, for charts and drawings")),
  priority: key(false, count("On one page: higher stays longer, 100 always stays")),
  title: key(false, text("Heading instead of the usual one"), "Flow"),
  split: key(false, flag("May be divided between pages"), true),
  optional: key(false, flag("On several pages: only where it needs no further page"), true),
  grow: key(
    false,
    z
      .array(count("Height in points"))
      .length(2)
      .refine(([least = 0, most = 0]) => least <= most, "the least height stands first")
      .meta({ description: "Least and most height in points of charts that take what their page has left" }),
    [118, 160],
  ),
  gives: key(false, count("Where its page is over-full: gives way, the lowest number first")),
  goes_on: key(
    false,
    flag("Where its page is over-full: what does not fit goes on at the head of the next page"),
    true,
  ),
  overleaf: key(
    false,
    count("Where its page is over-full: its row goes to the head of the next page, the lowest first"),
  ),
  with: key(false, text("Only where the block named stands on the sheet", "pinch-outline")),
  without: key(false, text("Only where the block named does not stand on the sheet", "pinch-outline")),
});

const blockName = (description = "Name of a block") => text(description, "flow-chart").meta({ editor: "block" });
const blockMap = () => keys({ block: requiredKey(false, blockName()), ...blockOptions() });
const blocks = () => z.array(z.union([blockName(), blockMap()])).min(1);

const buildSchema = () =>
  keys({
    template: requiredKey(false, text("Name of the template", "handover")),
    paper: key(
      false,
      word(["A4", "Letter", "phone"], "Paper, unless job or shop say otherwise; phone: one column, 9 : 16"),
    ),
    one_page: key(false, flag("What does not fit on one page is left out, lowest priority first"), true),
    per_head: key(false, flag("All of it once for each head of a pair, on pages of its own"), true),
    rows: requiredKey(
      true,
      z
        .array(
          z.union([
            blockName("Name of a block over the whole width"),
            blocks().meta({ description: "Blocks side by side" }),
            keys({
              block: key(false, blockName()),
              ...blockOptions(),
              blocks: key(false, blocks().meta({ description: "Blocks side by side" }), ["flow-chart", "dimensions"]),
              new_page: key(false, flag("Begin a new page here"), true),
              pull_up: key(false, flag("With new_page: stands on the page before where that has room"), true),
            }),
          ]),
        )
        .min(1)
        .meta({ description: "From top to bottom: a block, a list of blocks side by side, or a map with options" }),
      ["masthead", ["parties", "headline"], { block: "flow-chart", height: 170 }],
    ),
  });

/** A template file: paper, and rows of named blocks with their options. No code, no expressions. */
export const templateSchema = memoize(buildSchema, { max: 1, key: () => "template" });

export type TemplateFile = z.output<ReturnType<typeof templateSchema>>;

/** A named block with its options. */
export type TemplateBlock = {
  readonly block: string;
  readonly span?: number;
  readonly height?: number;
  readonly priority?: number;
  readonly title?: string;
  readonly split?: boolean;
  readonly optional?: boolean;
  /** Least and most. */
  readonly grow?: readonly number[];
  readonly gives?: number;
  readonly goes_on?: boolean;
  readonly overleaf?: number;
  readonly with?: string;
  readonly without?: string;
};
export type TemplateRow = {
  readonly blocks: readonly TemplateBlock[];
  readonly newPage: boolean;
  readonly pullUp?: boolean;
};

/** A template with its rows normalised. */
export type Template = {
  readonly name: string;
  readonly paper?: "A4" | "Letter" | "phone";
  readonly onePage: boolean;
  readonly perHead?: boolean;
  readonly rows: readonly TemplateRow[];
};
