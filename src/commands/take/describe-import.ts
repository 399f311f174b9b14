import { SIDES } from "../../model/model.ts";
import { unitSymbol } from "../../units/show.ts";
import type { Kind } from "../../units/table.ts";
import { counted } from "../report.ts";
import type { Pasted } from "./parse-pasted.ts";
import { PARTING_NAMES } from "./split-rows.ts";

type Written = { readonly name: string; readonly encoding: string };

/** What was understood of readings, in lines: so that a wrong guess is seen before it is printed. */
export function describeImport({ name, encoding }: Written, pasted: Pasted): readonly string[] {
  const { table, parting, decimal, leftOut } = pasted;
  const columns = table.columns.map((column) => {
    const kind: Kind =
      column.name === "lift"
        ? "length"
        : column.name.startsWith("pressure")
          ? "pressure"
          : column.unit === "%"
            ? "ratio"
            : "flow";
    return column.unit === undefined ? column.name : `${column.name} (${unitSymbol(kind, column.unit)})`;
  });
  const cells = table.rows.flatMap((row) => SIDES.flatMap((side) => row.readings[side] ?? []));
  const kinds = (["doubtful", "noisy", "struck out", "missing"] as const).flatMap((kind) => {
    const count = cells.filter((cell) => cell.kind === kind).length;
    return count === 0 ? [] : [`${count} ${kind === "missing" ? "not taken" : kind}`];
  });
  const repeats = table.rows.filter((row) => row.repeat).length;
  return [
    `${name}: ${encoding}, ${PARTING_NAMES[parting]} between columns, decimal ${decimal}`,
    `  columns: ${columns.join(", ")}`,
    ...(leftOut.length > 0 ? [`  left out: ${leftOut.join(", ")}`] : []),
    `  ${[counted(table.rows.length, "row"), counted(cells.length, "reading"), ...kinds, ...(repeats > 0 ? [counted(repeats, "repeated lift")] : [])].join(", ")}`,
  ];
}
