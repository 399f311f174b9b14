import { error } from "../../diagnostics/build.ts";
import { SIDES } from "../schema/port.ts";
import type { JobRule } from "./rule.ts";

/** Chambers and port volumes are told apart by cylinder number. */
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
