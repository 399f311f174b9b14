import type { Form, FormEntry } from "../../model/form/form.ts";
import { SIDES } from "../../model/model.ts";
import type { Blank, WriteIn } from "../content.ts";
import { type Display, formatPercentDigits, sharedDecimals } from "../display.ts";
import { springRateDigits, springRateUnit } from "../words/spring-rate.ts";
import { capitalize } from "../words/text.ts";

/** Twelfths of the width. */
const ROW = 12;
/** Rules to write on, where one is too few. */
const LINES: Readonly<Record<string, number>> = { work: 2, not_done: 2, remarks: 2 };

/** Builds a blank with its unit and the value stated in the job. */
export function buildBlank(entry: FormEntry, display: Display): Blank {
  const lines = LINES[entry.path] ?? 1;
  const unit = entryUnit(entry, display);
  const value = statedText(entry, display);
  return {
    label: entry.label,
    share: entry.room,
    lines,
    ...(unit && typeof entry.stated !== "string" ? { unit } : {}),
    ...(value === undefined ? {} : { value }),
  };
}

/** The unit that is printed beside a blank; words have none. */
function entryUnit({ kind }: Pick<FormEntry, "kind">, display: Display): string | undefined {
  if (kind === "words") return undefined;
  if (kind === "springRate") return springRateUnit(display.unit("force"));
  return kind === "ratio" ? "%" : display.unit(kind);
}

/** Stated value of an entry, without its unit. */
function statedText({ kind, stated }: FormEntry, display: Display): string | undefined {
  if (stated === undefined || typeof stated === "string") return stated;
  return stated
    .map((si) => {
      if (kind === "words") return String(si);
      if (kind === "ratio") return formatPercentDigits(si, 0);
      if (kind === "springRate") return springRateDigits(display.unit("force"), si);
      const places = sharedDecimals(display, kind, [display.number(kind, si)]);
      return display.digits(kind, si, places);
    })
    .join(" × ");
}

/** Blanks in rows of twelve twelfths, in their order. */
export function packBlanks(blanks: readonly Blank[]): readonly (readonly Blank[])[] {
  const rows: Blank[][] = [];
  let filled = ROW;
  for (const blank of blanks) {
    if (filled + blank.share > ROW) {
      rows.push([]);
      filled = 0;
    }
    rows.at(-1)!.push(blank);
    filled += blank.share;
  }
  return rows;
}

/** Labels of the sweeps; each has a box. */
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
        text: `${capitalize(name)} (${reads === "percent" ? "% of range" : display.unit("flow")})`,
        span: side.length,
      })),
    ],
    rows: [...at, ...own].map((lift) => [lift, ...empty]),
  };
}

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
        const unit = entryUnit({ kind: kind === "area" ? "length" : kind }, display);
        return { title: label, share: room, ...(unit ? { unit } : {}) };
      }),
    ],
    rows: SIDES.map((side) => [
      capitalize(side),
      ...of(side).map((entry) => {
        const text = statedText(entry, display) ?? "";
        return entry.kind === "area" && entry.stated !== undefined ? `${text} ${display.unit("area")}` : text;
      }),
    ]),
  };
}

/** What is set and checked valve by valve, as in the job's table. */
export function valveBoxes(valves: readonly string[], display: Display): WriteIn {
  const unit = display.unit("length");
  const lengths = ["Height", "Shim", "Tip", "Drop", "Guide", "Runout"].map((title) => ({ title, unit, share: 2 }));
  return {
    kind: "write-in",
    columns: [{ title: "Valve", share: 1.4 }, ...lengths, { title: "Vacuum", share: 2 }],
    rows: valves.map((valve) => [valve, ...lengths.map(() => ""), ""]),
  };
}
