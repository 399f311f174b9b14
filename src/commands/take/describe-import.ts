import { SIDES } from "../../model/model.ts";
import { unitSymbol } from "../../units/show.ts";
import type { Kind } from "../../units/table.ts";
import { countNoun } from "../report.ts";
import type { PastedTable } from "./parse-pasted.ts";
import { DELIMITER_NAMES } from "./split-rows.ts";

type ReadingsSource = { readonly name: string; readonly encoding: string };

/** Describes how the readings were parsed, so that a wrong guess is seen before it reaches a sheet. */
export function describeImport({ name, encoding }: ReadingsSource, pasted: PastedTable): readonly string[] {
  const { table, delimiter, decimal, leftOut } = pasted;
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
    `${name}: ${encoding}, ${DELIMITER_NAMES[delimiter]} between columns, decimal ${decimal}`,
    `  columns: ${columns.join(", ")}`,
    ...(leftOut.length > 0 ? [`  left out: ${leftOut.join(", ")}`] : []),
    `  ${[countNoun(table.rows.length, "row"), countNoun(cells.length, "reading"), ...kinds, ...(repeats > 0 ? [countNoun(repeats, "repeated lift")] : [])].join(", ")}`,
  ];
}
