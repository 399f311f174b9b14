import type { Identity } from "../../model/model.ts";

/** Which sheet this is and of which figures: what a reader can compare with the shop's own. Names no person. */
export function sheetIdentifier({ number, revision, draft }: Identity, mark: string): string {
  return `${number} revision ${revision} figures ${mark}${draft ? " draft" : ""}`;
}
