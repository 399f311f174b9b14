import type { FormEntry } from "../../model/form/form.ts";
import type { Blank } from "../content.ts";
import { type Display, tidyDecimals } from "../display.ts";
import { percentDigits } from "../percent.ts";

/** Twelfths of the width. */
const ROW = 12;
/** Rules to write on, where one is too few. */
const LINES: Readonly<Record<string, number>> = { work: 2, remarks: 2 };

/** An entry as a blank, with its unit; what the job says stands in it. */
export function blankOf(entry: FormEntry, display: Display): Blank {
  const lines = LINES[entry.path] ?? 1;
  const unit = unitOf(entry, display);
  const value = statedText(entry, display);
  return {
    label: entry.label,
    share: lines > 1 ? ROW / 2 : entry.room,
    lines,
    ...(unit && typeof entry.stated !== "string" ? { unit } : {}),
    ...(value === undefined ? {} : { value }),
  };
}

/** The unit that is printed beside a blank; words have none. */
export function unitOf({ kind }: Pick<FormEntry, "kind">, display: Display): string | undefined {
  if (kind === "words") return undefined;
  return kind === "ratio" ? "%" : display.unit(kind);
}

/** What the job says of an entry, without its unit. */
export function statedText({ kind, stated }: FormEntry, display: Display): string | undefined {
  if (stated === undefined || typeof stated === "string") return stated;
  return stated
    .map((si) => {
      if (kind === "words") return String(si);
      if (kind === "ratio") return percentDigits(si, 0);
      const places = tidyDecimals(display, kind, [display.number(kind, si)]);
      return display.digits(kind, si, places);
    })
    .join(" × ");
}

/** Blanks in rows of twelve twelfths, in their order. */
export function packed(blanks: readonly Blank[]): readonly (readonly Blank[])[] {
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
