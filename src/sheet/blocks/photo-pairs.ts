import type { PicturePairs } from "../content.ts";
import { type BlockBuilder, type Context, endStages, type SheetStage } from "../context.ts";
import { paragraph, section } from "../section.ts";
import { dateWords } from "../words/dates.ts";
import { pairedPhotographs } from "./work.ts";

const NOTE =
  "A pair is cropped alike; light and exposure are the camera's and may differ. A picture shows one place of one cylinder, not all.";

/** Photographs before and after, those of one caption side by side under the names of their stages. */
export const photoPairs: BlockBuilder = (context, place) => {
  const photos = pairedPhotographs(context);
  if (photos.length === 0) return [];
  const captions = [...new Set(photos.map(({ picture }) => picture.caption ?? ""))];
  const pairs = captions.map((caption, i) => {
    const of = (as: "before" | "after") =>
      photos.find((photo) => photo.as === as && (photo.picture.caption ?? "") === caption)?.picture;
    const [before, after] = [of("before"), of("after")];
    return { ...captionWords(caption, i + 1), ...(before ? { before } : {}), ...(after ? { after } : {}) };
  });
  const part: PicturePairs = { kind: "picture-pairs", heads: stageHeads(context), pairs };
  return section(place, "Pictures, before and after", [part, ...paragraph(NOTE, "caption")]);
};

/** "1  Chamber of cylinder 1." and what differs: the words after the first full stop or colon. */
function captionWords(caption: string, number: number): { readonly lead: string; readonly text: string } {
  const [, part = caption, rest = ""] = /^(.*?[.:])\s+(.*)$/s.exec(caption) ?? [];
  return { lead: `${number}\u2002${part}`, text: rest };
}

function stageHeads(context: Context): PicturePairs["heads"] {
  const { first, last } = endStages(context);
  return [stageWords(first, "Before"), stageWords(last, "After")];
}

const stageWords = (stage: SheetStage | undefined, otherwise: string) =>
  stage === undefined
    ? otherwise
    : `${stage.name}${stage.stage.date === undefined ? "" : `, ${dateWords(stage.stage.date)}`}`;
