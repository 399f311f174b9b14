import { error } from "../../diagnostics/build.ts";
import type { JobRule } from "./rule.ts";

/** An engine that can turn: the gasket stated in one way, rod longer than the crank's throw, speeds from low to high. */
export const engineGeometry: JobRule = ({ job, located }) => {
  const { gasket, rpm, rod_length: rod, stroke } = job.engine ?? {};
  const faults = [];
  if (gasket && gasket.volume !== undefined && (gasket.bore ?? gasket.compressed) !== undefined)
    faults.push(
      error("job/gasket", "the gasket has both a volume and a size", located.keySpan(["engine", "gasket", "volume"]), {
        hint: "keep one of the two",
      }),
    );
  if (gasket && gasket.volume === undefined && (gasket.bore === undefined || gasket.compressed === undefined))
    faults.push(
      error(
        "job/gasket",
        "the gasket needs `bore` and `compressed`, or `volume`",
        located.keySpan(["engine", "gasket"]),
        {
          hint: "write { bore: 3.500 in, compressed: 0.041 in } or { volume: 8.9 cc }",
        },
      ),
    );
  if (rpm && rpm.from >= rpm.to)
    faults.push(
      error("job/rpm", "`from` is not below `to`", located.span(["engine", "rpm", "from"]), {
        hint: "write the lower engine speed first",
      }),
    );
  if (rod !== undefined && stroke !== undefined && rod <= stroke / 2)
    faults.push(
      error("job/rod-length", "the rod is no longer than half the stroke", located.span(["engine", "rod_length"]), {
        hint: "rod_length is centre to centre",
      }),
    );
  return faults;
};
