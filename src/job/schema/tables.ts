import { z } from "zod";
import type { Metres, Radians, SquareMetres } from "../../units/quantity.ts";
import { NOT_MEASURED, type NotMeasured, transformWithUnits } from "./quantities.ts";
import { type Cells, readTextTable, type TableFault } from "./text-table.ts";

/** A cross-section as typed: its size, or its area. */
export type SectionRow = {
  readonly at: Metres;
  readonly width?: Metres;
  readonly height?: Metres;
  readonly corner?: Metres;
  readonly area?: SquareMetres;
  readonly name?: string;
};
export type ProfileRow = { readonly angle: Radians; readonly lift: Metres };

const report = (context: z.core.$RefinementCtx, faults: readonly TableFault[]) => {
  for (const { message, ...params } of faults) context.addIssue({ code: "custom", message, params });
};

/** The table `sections`: cross-sections along the centreline from the manifold face. */
export const sectionsTable = () =>
  transformWithUnits(
    z.string().meta({
      description: "Table along the centreline from the face: at, width, height, corner, name; or at, area, name",
    }),
    (text, units, context): readonly SectionRow[] | NotMeasured => {
      if (text.trim().toLowerCase() === NOT_MEASURED) return NOT_MEASURED;
      const size = { kind: "length" } as const;
      const edge = { kind: "length", sign: "zero or more" } as const;
      const columns = {
        at: edge,
        width: size,
        height: size,
        corner: edge,
        area: { kind: "area" },
        name: { kind: "words" },
      } as const;
      const { rows, names, faults } = readTextTable(text, columns, units);
      const complete =
        names.includes("at") && (names.includes("area") || (names.includes("width") && names.includes("height")));
      const shape =
        complete || faults.length > 0
          ? []
          : [wholeTable(text, "a table of sections needs `at` with `width` and `height`, or `area`")];
      const order = outOfOrder(rows, "at", "sections run from the manifold face inwards: `at` must rise");
      report(context, [...faults, ...shape, ...order]);
      return faults.length + shape.length + order.length > 0 ? z.NEVER : rows.map(plainRow<SectionRow>);
    },
  ).meta({ form: { table: "sections" } });

/** The table `profile`: crank degrees and lift. */
export const profileTable = () =>
  transformWithUnits(
    z.string().meta({ description: "Measured lift, a table of crank degrees and lift: `profile: |`" }),
    (text, units, context): readonly ProfileRow[] => {
      const columns = {
        degrees: { kind: "angle", sign: "any" },
        lift: { kind: "length", sign: "zero or more" },
      } as const;
      const { rows, names, faults } = readTextTable(text, columns, { ...units, angle: "deg" });
      const complete = names.includes("degrees") && names.includes("lift");
      const shape =
        complete || faults.length > 0 ? [] : [wholeTable(text, "a cam profile needs columns `degrees` and `lift`")];
      const few =
        shape.length + faults.length === 0 && rows.length < 3
          ? [wholeTable(text, "a cam profile needs at least three rows")]
          : [];
      const order = outOfOrder(rows, "degrees", "degrees must rise from row to row");
      const all = [...faults, ...shape, ...few, ...order];
      report(context, all);
      if (all.length > 0) return z.NEVER;
      return rows.map((row) => ({ angle: row.degrees?.value as Radians, lift: row.lift?.value as Metres }));
    },
  ).meta({ form: { table: "profile" } });

const plainRow = <T>(row: Cells): T =>
  Object.fromEntries(Object.entries(row).map(([name, cell]) => [name, cell.value ?? cell.words])) as T;

const wholeTable = (text: string, message: string): TableFault => {
  const start = text.length - text.trimStart().length;
  const end = text.indexOf("\n", start);
  return { code: "job/table-column", message, start, end: end < 0 ? text.length : end };
};

function outOfOrder(rows: readonly Cells[], column: string, message: string): TableFault[] {
  const bad = rows.find((row, index) => {
    const before = rows[index - 1]?.[column]?.value;
    const here = row[column]?.value;
    return before !== undefined && here !== undefined && here <= before;
  })?.[column];
  return bad ? [{ code: "job/table-order", message, start: bad.at.start, end: bad.at.end }] : [];
}
