import { z } from "zod";
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
});

const blockMap = () => keys({ block: requiredKey(false, text("Name of a block", "flow-chart")), ...blockOptions() });
const blocks = () => z.array(z.union([text("Name of a block", "flow-chart"), blockMap()])).min(1);

/** A template file: paper, and rows of named blocks with their options. No code, no expressions. */
export const templateSchema = () =>
  keys({
    template: requiredKey(false, text("Name of the template", "handover")),
    paper: key(false, word(["A4", "Letter"], "Paper, unless job or shop say otherwise")),
    one_page: key(false, flag("What does not fit on one page is left out, lowest priority first"), true),
    rows: requiredKey(
      true,
      z
        .array(
          z.union([
            text("Name of a block over the whole width", "masthead"),
            blocks().meta({ description: "Blocks side by side" }),
            keys({
              block: key(false, text("Name of a block", "flow-chart")),
              ...blockOptions(),
              blocks: key(false, blocks().meta({ description: "Blocks side by side" }), ["flow-chart", "dimensions"]),
              new_page: key(false, flag("Begin a new page here"), true),
            }),
          ]),
        )
        .min(1)
        .meta({ description: "From top to bottom: a block, a list of blocks side by side, or a map with options" }),
      ["masthead", ["parties", "headline"], { block: "flow-chart", height: 170 }],
    ),
  });

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
};
export type TemplateRow = { readonly blocks: readonly TemplateBlock[]; readonly newPage: boolean };

/** A template with its rows normalised. */
export type Template = {
  readonly name: string;
  readonly paper?: "A4" | "Letter";
  readonly onePage: boolean;
  readonly rows: readonly TemplateRow[];
};
