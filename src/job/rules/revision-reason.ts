import { error } from "../../diagnostics/build.ts";
import type { JobRule } from "./rule.ts";

/** A corrected sheet says what it replaces, and why. */
export const revisionReason: JobRule = ({ job, located }) => {
  if (job.product !== undefined || (job.revision ?? 1) === 1) return [];
  const lacks = (["replaces", "because"] as const).filter((key) => job[key] === undefined);
  if (lacks.length === 0) return [];
  const names = lacks.map((key) => `\`${key}\``).join(" and ");
  return [
    error("job/revision-reason", `revision ${job.revision} needs ${names}`, located.span(["revision"]), {
      hint: "write `replaces:` with what this sheet replaces, and `because:` with why; both are printed",
    }),
  ];
};
