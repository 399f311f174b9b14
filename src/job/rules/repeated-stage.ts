import { error } from "../../diagnostics/build.ts";
import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import type { JobRule } from "./rule.ts";

/** `repeats:` names a stage that stands above. */
export const repeatedStage: JobRule = ({ job, located }) => {
  const stages = job.stages ?? [];
  return stages.flatMap((stage, index) => {
    if (stage.repeats === undefined) return [];
    const at = located.span(["stages", index, "repeats"]);
    const above = stages.slice(0, index).map((other) => other.name);
    const wanted = stages.findIndex((other) => other.name === stage.repeats);
    if (wanted === index) return [error("job/repeats-itself", "a stage cannot repeat itself", at)];
    if (wanted > index)
      return [
        error("job/repeats-later", `\`${stage.repeats}\` stands below this stage`, at, {
          hint: "stages stand oldest first",
        }),
      ];
    if (wanted >= 0) return [];
    const near = didYouMean(stage.repeats, above);
    const known = above.length > 0 ? `the stages above are ${above.join(", ")}` : "no stage stands above this one";
    return [
      error("job/repeats-missing", `there is no stage \`${stage.repeats}\``, at, {
        hint: near ? `did you mean \`${near}\`?` : known,
      }),
    ];
  });
};
