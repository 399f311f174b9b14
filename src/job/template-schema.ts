import { z } from "zod";
import { count, flag, text, word } from "./schema/plain.ts";

/** Columns of the page's grid. */
export const GRID_COLUMNS = 6;

const blockOptions = () => ({
  span: count(`Columns of the grid's ${GRID_COLUMNS} that it takes; none said: equal shares`).optional(),
  height: count("Height in points, for charts and drawings").optional(),
  priority: count("On one page: higher stays longer, 100 always stays").optional(),
  title: text("Heading instead of the usual one").optional(),
  split: flag("May be divided between pages").optional(),
  optional: flag("On several pages: only where it needs no further page").optional(),
});

const blockMap = () => z.strictObject({ block: text("Name of a block", "flow-chart"), ...blockOptions() });
const blocks = () => z.array(z.union([text("Name of a block", "flow-chart"), blockMap()])).min(1);

/** `templates/*.yaml`: paper, and rows of named blocks with their options. No code, no expressions. */
export const templateSchema = () =>
  z.strictObject({
    template: text("Name of the template", "handover"),
    paper: word(["A4", "Letter"], "Paper, unless job or shop say otherwise").optional(),
    one_page: flag("What does not fit on one page is left out, lowest priority first").optional(),
    rows: z
      .array(
        z.union([
          text("Name of a block over the whole width", "masthead"),
          blocks().meta({ description: "Blocks side by side" }),
          z.strictObject({
            block: text("Name of a block", "flow-chart").optional(),
            ...blockOptions(),
            blocks: blocks().meta({ description: "Blocks side by side" }).optional(),
            new_page: flag("Begin a new page here").optional(),
          }),
        ]),
      )
      .min(1)
      .meta({ description: "From top to bottom: a block, a list of blocks side by side, or a map with options" }),
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

/** A template in its one form. */
export type Template = {
  readonly name: string;
  readonly paper?: "A4" | "Letter";
  readonly onePage: boolean;
  readonly rows: readonly TemplateRow[];
};
