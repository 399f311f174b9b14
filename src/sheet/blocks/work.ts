import type { Photo } from "../../model/model.ts";
import type { Pictures } from "../content.ts";
import type { BlockBuilder, Context } from "../context.ts";
import { paragraph, section } from "../section.ts";

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

/** What was not done or not inspected. */
export const omissions: BlockBuilder = ({ model: { text } }, place) =>
  section(
    place,
    "Not done",
    text.notDone.length === 0
      ? []
      : [{ kind: "list", compact: true, items: text.notDone.map((item) => ({ text: item })) }],
  );

/** Work and omissions in one list, for a column of its own. */
export const job: BlockBuilder = (context, place) => {
  const { text } = context.model;
  const items = text.work.map(({ area, items }) => ({ lead: `${area}:`, text: items.join("; ") }));
  if (items.length === 0) return omissions(context, place);
  const left = text.notDone.length === 0 ? [] : [{ lead: "Not done:", text: text.notDone.join("; ") }];
  return section(place, "What we did", [{ kind: "list", items: [...items, ...left], compact: true, plain: true }]);
};

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

/** A picture's height on the page, at most [pt]: two lying ones fill a row, and a standing one is not huge. */
const PHOTO_HEIGHT = 190;

/** Photographs, with what they show; without the one that stands beside the title already. */
export const photos: BlockBuilder = (context, place) => {
  const all = photographs(context);
  const shown = place.cell.with === "hero" ? heroIndex(context) : -1;
  const paired = context.blocks.includes("photo-pairs");
  const pictures = all.filter((_, i) => i !== shown && !(paired && isPaired(context.model.text.photos[i])));
  if (pictures.length === 0) return [];
  return section(place, "Photographs", [{ kind: "pictures", pictures, height: place.cell.height ?? PHOTO_HEIGHT }]);
};

/** The job's photographs with their words. */
const photographs = ({ model: { text, identity } }: Context): Pictures["pictures"] =>
  text.photos.map(({ file, caption, focus }, i) => ({
    image: file,
    alt: `Photograph: ${caption ?? `${identity.title}, picture ${i + 1} of ${text.photos.length}`}`,
    ...(caption ? { caption } : {}),
    ...(focus ? { focus } : {}),
  }));

const isPaired = (photo: Photo | undefined) => photo?.as === "before" || photo?.as === "after";

/** Photographs of before and after, with which of the two they are. */
export const pairedPhotographs = (context: Context) =>
  photographs(context).flatMap((picture, i) => {
    const as = context.model.text.photos[i]?.as;
    return as === "before" || as === "after" ? [{ picture, as }] : [];
  });

/** Which photograph stands beside the title: the first said to, else the first of a detail; -1 for none. */
function heroIndex({ model: { text } }: Context): number {
  const chosen = text.photos.findIndex(({ as }) => as === "hero");
  return chosen >= 0 ? chosen : text.photos.findIndex(({ as = "detail" }) => as === "detail");
}

export const heroPhotograph = (context: Context) => photographs(context)[heroIndex(context)];

/** The porter's own words, under his name. */
export const remarks: BlockBuilder = ({ model: { text, shop, stages } }, place) => {
  const paragraphs = (text.remarks ?? "").split(/\n\s*\n/).map((words) => words.replaceAll(/\s+/g, " ").trim());
  const kept = paragraphs.filter((words) => words !== "");
  const name = stages.at(-1)?.by ?? shop.responsible;
  return section(
    place,
    name ? `Remarks by ${name}` : "Remarks",
    kept.flatMap((words) => paragraph(words)),
  );
};
