import type { BlockBuilder } from "../context.ts";
import { section } from "../section.ts";

/** Parts fitted or supplied. */
export const parts: BlockBuilder = ({ model: { text } }, place) => {
  if (text.parts.length === 0) return [];
  const quantity = text.parts.some((item) => item.quantity !== undefined);
  const note = text.parts.some((item) => item.note !== undefined);
  return section(place, "Parts", [
    {
      kind: "table",
      columns: [
        { title: "Part", align: "left", weight: 2 },
        ...(quantity ? ([{ title: "Quantity", align: "decimal" }] as const) : []),
        ...(note ? ([{ title: "Note", align: "left", weight: 2 }] as const) : []),
      ],
      rows: text.parts.map((item) => [
        { text: item.part },
        ...(quantity ? [{ text: item.quantity ?? "" }] : []),
        ...(note ? [{ text: item.note ?? "" }] : []),
      ]),
      rowHeads: true,
      fifths: false,
      notes: [],
    },
  ]);
};
