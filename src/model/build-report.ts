import { DEFAULTS } from "../job/defaults.ts";
import type { LoadedJob } from "../job/loaded-job.ts";
import { omitUndefined } from "../util/omit-undefined.ts";
import type { CompareAt, Engine, Report } from "./model.ts";

/** Merges the report options; the job overrides the shop key by key. */
export function buildReport({ job, shop }: LoadedJob, engine: Engine | undefined): Report {
  const stated = { ...shop?.report, ...(job.report && omitUndefined(job.report)) };
  const camKnown = engine?.cams.intake !== undefined || engine?.cams.exhaust !== undefined;
  const usual = DEFAULTS.report.lifts.filter((lift) => lift !== "cam" || camKnown);
  const lifts = (stated.lifts ?? usual).map(
    (lift): CompareAt => (typeof lift === "number" ? { kind: "lift", lift } : { kind: lift }),
  );
  return {
    lifts,
    headlineSet: stated.headline_set,
    powerPerFlow: stated.power_per_flow,
    pinchLimit: stated.pinch_limit ?? DEFAULTS.report.pinchLimit,
    pinchLimitIsDefault: stated.pinch_limit === undefined,
    holdBack: stated.hold_back ?? DEFAULTS.report.holdBack,
    embed: stated.embed ?? DEFAULTS.report.embed,
    strict: stated.strict ?? DEFAULTS.report.strict,
  };
}
