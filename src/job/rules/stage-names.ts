import { error } from "../../diagnostics/build.ts";
import type { JobRule } from "./rule.ts";

/** Stages are called by name, so no two share one. */
export const stageNames: JobRule = ({ job, located }) => {
  const seen = new Set<string>();
  return (job.stages ?? []).flatMap((stage, index) => {
    const name = stage.name.trim().toLowerCase();
    const twice = seen.has(name);
    seen.add(name);
    return twice && name !== "?"
      ? [
          error("job/stage-name", `two stages are called \`${stage.name}\``, located.span(["stages", index, "name"]), {
            hint: "give one of them another name",
          }),
        ]
      : [];
  });
};
