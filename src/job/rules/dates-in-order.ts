import { warning } from "../../diagnostics/build.ts";
import type { JobRule } from "./rule.ts";

/** A head comes in before its sheet goes out. Dates written year first compare as text. */
export const datesInOrder: JobRule = ({ job, located }) => {
  const days = [
    { key: "received", day: job.received, path: ["received"] },
    ...(job.stages ?? []).map((stage, index) => ({ key: "date", day: stage.date, path: ["stages", index, "date"] })),
  ];
  return days.flatMap(({ key, day, path }) =>
    day !== undefined && day > job.issued && job.issued !== "2000-01-01"
      ? [
          warning("job/date-order", `\`${key}\` is later than \`issued\``, located.span(path), {
            hint: "check both dates",
          }),
        ]
      : [],
  );
};
