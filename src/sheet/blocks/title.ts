import type { BlockBuilder } from "../context.ts";
import { said } from "../section.ts";
import { dateSpan, dateWords } from "../words/dates.ts";

/** What kind of document this is, of which head, and its dates. */
export const title: BlockBuilder = ({ model, stages }, place) => {
  const { identity } = model;
  const product = identity.kind === "product";
  const measured = stages.flatMap(({ stage }) => (stage.date ? [stage.date] : [])).sort();
  const [first, last] = [measured[0], measured.at(-1)];
  const dates = said<string>([
    !product && first !== undefined && last !== undefined && `measured ${dateSpan(first, last)}`,
    `issued ${dateWords(identity.issued)}`,
    String(identity.revision) !== "1" && `revision ${identity.revision}`,
  ]);
  const kind = product ? "Product sheet" : "Cylinder head sheet";
  const replaces = identity.replaces
    ? `Replaces ${identity.replaces}${identity.because ? `: ${identity.because}` : "."}`
    : undefined;
  return [
    { kind: "heading", level: 1, text: `${place.cell.title ?? kind}: ${identity.title}` },
    {
      kind: "paragraph",
      style: "quiet",
      text: `${product ? "Part" : "Job"} ${identity.number} · ${dates.join(" · ")}`,
    },
    ...(replaces ? ([{ kind: "paragraph", style: "body", text: replaces }] as const) : []),
  ];
};
