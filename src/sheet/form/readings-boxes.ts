import type { Form } from "../../model/form/form.ts";
import { SIDES } from "../../model/model.ts";
import type { WriteIn } from "../content.ts";
import type { Display } from "../display.ts";
import { capital } from "../words/text.ts";

/** Sweeps that have a box each. */
const SWEEPS = ["1st", "2nd", "3rd"] as const;
/** As many rows as a page holds: those without a lift are for lifts of one's own. */
const ROWS = 12;

/** A box for each lift, side and sweep; benches that read per cent have one for the range. */
export function readingsBoxes({ lifts, reads }: Form, display: Display): WriteIn {
  const range = reads === "percent" ? [{ title: "Range", share: 2 }] : [];
  const side = [...range, ...SWEEPS.map((title) => ({ title, share: 3 }))];
  const empty = SIDES.flatMap(() => side.map(() => ""));
  const at = lifts.at.map((lift) => display.digits("lift", lift));
  const own = Array.from({ length: Math.max(0, ROWS - at.length) }, () => "");
  return {
    kind: "write-in",
    columns: [{ title: "Lift", unit: display.unit("lift"), share: 3 }, ...SIDES.flatMap(() => side)],
    groups: [
      { text: "", span: 1 },
      ...SIDES.map((name) => ({
        text: `${capital(name)} (${reads === "percent" ? "% of range" : display.unit("flow")})`,
        span: side.length,
      })),
    ],
    rows: [...at, ...own].map((lift) => [lift, ...empty]),
  };
}
