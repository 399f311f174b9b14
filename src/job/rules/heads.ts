import { error } from "../../diagnostics/build.ts";
import type { JobRule } from "./rule.ts";

/** Each head of a pair has an id and cylinders of its own. */
export const heads: JobRule = ({ job, located }) => {
  const seenIds = new Set<string>();
  const seenCylinders = new Set<number>();
  return (job.heads ?? []).flatMap((head, index) => {
    const faults = seenIds.has(head.id)
      ? [error("job/head-id", `two heads have the id \`${head.id}\``, located.span(["heads", index, "id"]))]
      : [];
    seenIds.add(head.id);
    const shared = (head.cylinders ?? []).flatMap((cylinder, at) => {
      const twice = seenCylinders.has(cylinder);
      seenCylinders.add(cylinder);
      return twice
        ? [
            error(
              "job/head-cylinder",
              `cylinder ${cylinder} is named twice`,
              located.span(["heads", index, "cylinders", at]),
            ),
          ]
        : [];
    });
    return [...faults, ...shared];
  });
};
