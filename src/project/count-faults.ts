import type { Diagnostic, Span } from "../diagnostics/diagnostic.ts";
import type { RunTable } from "../job/readings/run-tables.ts";
import type { Path, SourceDocument, YamlValue } from "../parse/yaml/source-document.ts";
import { COUNT_LIMITS, ENTRIES, READINGS, READINGS_OF_A_JOB } from "./limits.ts";

/** Messages for lists with their own limits. */
const LIMIT_TEXTS: Readonly<Record<keyof typeof COUNT_LIMITS, { readonly many: string; readonly hint: string }>> = {
  stages: { many: "stages", hint: "keep the stages that the sheet compares" },
  runs: { many: "runs", hint: "put repeats of one sweep into one readings file, one after another" },
  compare: { many: "heads to compare with", hint: "a chart holds a handful: choose the nearest" },
  samples: { many: "samples", hint: "name the latest ones" },
  photos: { many: "photos", hint: "choose those that show the work" },
};

/** Reports lists and maps of a job above their limit, each at the first excess entry. */
export function checkCounts(located: SourceDocument): readonly Diagnostic[] {
  const faults: Diagnostic[] = [];
  const visit = (value: Exclude<YamlValue, string>, path: Path) => {
    const own = ownLimit(path.at(-1));
    const most = own === undefined ? ENTRIES : COUNT_LIMITS[own];
    const keys = Object.keys(value);
    if (keys.length > most) {
      const { many, hint } =
        own === undefined ? { many: "entries", hint: "keep what the customer reads" } : LIMIT_TEXTS[own];
      faults.push({
        severity: "error",
        code: "project/too-many",
        message: `${keys.length} ${many}; at most ${most} are read`,
        at: located.span([...path, keys[most] as string]),
        hint,
      });
    }
    for (const key of keys) {
      const inner = (value as { readonly [key: string]: YamlValue })[key] as YamlValue;
      if (typeof inner !== "string") visit(inner, [...path, key]);
    }
  };
  if (typeof located.value !== "string") visit(located.value, []);
  return faults;
}

const ownLimit = (key: string | number | undefined): keyof typeof COUNT_LIMITS | undefined =>
  typeof key === "string" && Object.hasOwn(COUNT_LIMITS, key) ? (key as keyof typeof COUNT_LIMITS) : undefined;

/** Reports tables above the limit of readings, singly and in total, each at the first excess row. */
export function checkTableLengths(tables: readonly RunTable[]): readonly Diagnostic[] {
  const faults: Diagnostic[] = [];
  const refuse = (message: string, at: Span | undefined, hint: string) => {
    if (at) faults.push({ severity: "error", code: "project/too-many-readings", message, at, hint });
  };
  let before = 0;
  for (const {
    table: { rows },
  } of tables) {
    refuse(
      `${rows.length} readings in one table; at most ${READINGS} are read`,
      rows[READINGS]?.span,
      "a bench that logs all the time gives too many: keep one a lift",
    );
    if (before <= READINGS_OF_A_JOB)
      refuse(
        `more than ${READINGS_OF_A_JOB} readings in one job`,
        rows[READINGS_OF_A_JOB - before]?.span,
        "keep the runs that the sheet shows",
      );
    before += rows.length;
  }
  return faults;
}
