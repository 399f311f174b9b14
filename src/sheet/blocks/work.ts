import type { BlockBuilder } from "../context.ts";
import { section } from "../section.ts";

/** What was done, area by area. */
export const work: BlockBuilder = ({ model: { text } }, place) =>
  section(
    place,
    "Work done",
    text.work.length === 0
      ? []
      : [
          {
            kind: "list",
            compact: true,
            items: text.work.map(({ area, items }) => ({ lead: `${area}:`, text: items.join("; ") })),
          },
        ],
  );

/** What was not done or not looked at: said, so that nobody takes it for done. */
export const notDone: BlockBuilder = ({ model: { text } }, place) =>
  section(
    place,
    "Not done",
    text.notDone.length === 0
      ? []
      : [{ kind: "list", compact: true, items: text.notDone.map((item) => ({ text: item })) }],
  );

/** Both in one list, for a column of its own. */
export const job: BlockBuilder = (context, place) => {
  const { text } = context.model;
  const items = text.work.map(({ area, items }) => ({ lead: `${area}:`, text: items.join("; ") }));
  if (items.length === 0) return notDone(context, place);
  const left = text.notDone.length === 0 ? [] : [{ lead: "Not done:", text: text.notDone.join("; ") }];
  return section(place, "Work done", [{ kind: "list", items: [...items, ...left], compact: true }]);
};
