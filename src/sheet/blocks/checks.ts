import type { JobText } from "../../model/model.ts";
import type { Part, Table } from "../content.ts";
import type { BlockBuilder } from "../context.ts";
import { presentItems, section } from "../section.ts";
import { checkResultWords } from "../words/conditions.ts";

/** What we checked, how, and what came of it. */
export const checks: BlockBuilder = ({ model: { text }, withheld }, place) => {
  const rows = text.checks.filter((check) => !withheld.names(check.check));
  const measured = text.alsoMeasured.filter(({ what }) => !withheld.names(what));
  const method = rows.some((check) => check.method !== undefined);
  const checked: readonly Table[] =
    rows.length === 0
      ? []
      : [
          {
            kind: "table",
            columns: [
              { title: "Check", align: "left", weight: 2 },
              ...(method ? ([{ title: "How", align: "left", weight: 2 }] as const) : []),
              { title: "Result", align: "left", weight: 2 },
            ],
            rows: rows.map((check) => [
              { text: check.check },
              ...(method ? [{ text: check.method ?? "" }] : []),
              { text: resultWords(check) },
            ]),
            rowHeads: true,
            fifths: false,
            notes: [],
          },
        ];
  const also: readonly Part[] =
    measured.length === 0
      ? []
      : [
          {
            kind: "facts",
            rows: measured.map(({ what, values, how }) => ({
              label: what,
              value: values.map(({ label, value }) => (label === "" ? value : `${label} ${value}`)).join(", "),
              ...(how ? { note: how } : {}),
            })),
          },
        ];
  return section(place, "What we checked", [...checked, ...also]);
};

/** What came of it: in words, the number, and the limit that it was held to. */
function resultWords(check: JobText["checks"][number]): string {
  const { value, limit } = check;
  return presentItems<string>([checkResultWords(check), value, limit && `limit ${limit}`]).join(", ");
}
