import { error, warning } from "../../diagnostics/build.ts";
import { didYouMean } from "../../diagnostics/did-you-mean.ts";
import { SIDES } from "../schema/port.ts";
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

/** Names of a stage before any work. */
const BASELINE =
  /^(?:as received|as found|as it came(?: in)?|received|stock|standard|baseline|before|before work|original|untouched)$/i;

/** Stages stand oldest first: none is dated before one above it, and the head before the work stands below no other. */
export const stagesInOrder: JobRule = ({ job, located }) => {
  const stages = job.stages ?? [];
  return stages.flatMap((stage, index) => {
    const above = stages.slice(0, index);
    const later = above.find(({ date }) => date !== undefined && stage.date !== undefined && date > stage.date);
    if (later)
      return [
        error(
          "job/stage-order",
          `\`${stage.name}\` is dated before \`${later.name}\` above it`,
          located.span(["stages", index, "date"]),
          {
            note: "stages stand oldest first, and each is compared with the one above",
            hint: `check both dates, or move \`${stage.name}\` above \`${later.name}\``,
          },
        ),
      ];
    const first = above[0];
    if (!first || stage.repeats !== undefined || !BASELINE.test(stage.name.trim())) return [];
    if (above.some(({ name }) => BASELINE.test(name.trim()))) return [];
    // A date says more than a name.
    if (stage.date !== undefined && above.every(({ date }) => date !== undefined)) return [];
    return [
      error(
        "job/stage-order",
        `\`${stage.name}\` stands below \`${first.name}\`, as if it came after`,
        located.span(["stages", index, "name"]),
        {
          note: "stages stand oldest first, and each is compared with the one above",
          hint: `move it above \`${first.name}\`; the same state measured again says \`repeats:\``,
        },
      ),
    ];
  });
};

/** Stages are referred to by name, so names are unique. */
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

/** The keys of chambers and port volumes are cylinder numbers. */
export const cylinderKeys: JobRule = ({ job, located }) =>
  (job.stages ?? []).flatMap((stage, index) => {
    const maps = [
      { map: stage.chambers, path: ["stages", index, "chambers"] },
      ...SIDES.map((side) => ({ map: stage[side]?.port_volumes, path: ["stages", index, side, "port_volumes"] })),
    ];
    return maps.flatMap(({ map, path }) =>
      Object.keys(map ?? {}).flatMap((key) =>
        /^[1-9]\d?$/.test(key)
          ? []
          : [
              error("job/cylinder-key", `\`${key}\` is not a cylinder number`, located.keySpan([...path, key]), {
                hint: "write { 1: 43.0 cc, 2: 43.4 cc }",
              }),
            ],
      ),
    );
  });

/** A valve centre is two lengths: across and along. */
export const layoutCentres: JobRule = ({ job, located }) =>
  (job.stages ?? []).flatMap((stage, index) =>
    SIDES.flatMap((side) =>
      (stage.layout?.[side] ?? []).flatMap((centre, at) =>
        centre.length === 2
          ? []
          : [
              error(
                "job/layout-centre",
                "a valve centre is two lengths, across and along",
                located.span(["stages", index, "layout", side, at]),
                {
                  hint: "write [ [0.78, 0.06] ]: a list of centres, also for a single valve",
                },
              ),
            ],
      ),
    ),
  );
