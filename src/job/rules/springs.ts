import { error } from "../../diagnostics/build.ts";
import type { JobRule } from "./rule.ts";

/** A spring is longer fitted than solid. */
export const springs: JobRule = ({ job, located }) => {
  const { installed_height: height, coil_bind: solid } = job.springs ?? {};
  if (height === undefined || solid === undefined || solid < height) return [];
  return [
    error("job/coil-bind", "the spring is solid at its installed height", located.span(["springs", "coil_bind"]), {
      hint: "coil_bind is the height of the spring when solid; check both for swapped values",
    }),
  ];
};
