import type { Part, Table } from "../content.ts";
import type { BlockBuilder } from "../context.ts";
import { section } from "../section.ts";
import { checkResultWords } from "../words/conditions.ts";

/** What we checked, how, and what came of it. */
export const checks: BlockBuilder = ({ model: { text }, withheld }, place) => {
  const rows = text.checks.filter((check) => !withheld.names(check.check));
  const measured = text.alsoMeasured.filter(({ what }) => !withheld.names(what));
  const has = (pick: (check: (typeof rows)[number]) => string | undefined) =>
    rows.some((check) => pick(check) !== undefined);
  const value = has(({ value }) => value);
  const limit = has(({ limit }) => limit);
  const method = has((check) => check.method);
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
              ...(value ? ([{ title: "Measured", align: "left" }] as const) : []),
              ...(limit ? ([{ title: "Limit", align: "left" }] as const) : []),
            ],
            rows: rows.map((check) => [
              { text: check.check },
              ...(method ? [{ text: check.method ?? "" }] : []),
              { text: checkResultWords(check) ?? "" },
              ...(value ? [{ text: check.value ?? "" }] : []),
              ...(limit ? [{ text: check.limit ?? "" }] : []),
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
