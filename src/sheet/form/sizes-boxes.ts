import type { FormEntry } from "../../model/form/form.ts";
import { SIDES } from "../../model/model.ts";
import type { WriteIn } from "../content.ts";
import type { Display } from "../display.ts";
import { capital } from "../words/text.ts";
import { statedText, unitOf } from "./blank-of.ts";

/** Both ports' sizes, a line a side as in the job file. */
export function sizesBoxes(entries: readonly FormEntry[], display: Display): WriteIn {
  const of = (side: string) => entries.filter(({ path }) => path.startsWith(`stages.${side}.`));
  const columns = of(SIDES[0]!);
  return {
    kind: "write-in",
    columns: [
      { title: "Port", share: 1.9 },
      ...columns.map(({ label, room, kind }) => {
        // A pinch that the job gives as an area says so in its own box.
        const unit = unitOf({ kind: kind === "area" ? "length" : kind }, display);
        return { title: label, share: room, ...(unit ? { unit } : {}) };
      }),
    ],
    rows: SIDES.map((side) => [
      capital(side),
      ...of(side).map((entry) => {
        const text = statedText(entry, display) ?? "";
        return entry.kind === "area" && entry.stated !== undefined ? `${text} ${display.unit("area")}` : text;
      }),
    ]),
  };
}
