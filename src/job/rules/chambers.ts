import { warning } from "../../diagnostics/build.ts";
import type { Path } from "../../parse/yaml/source-document.ts";
import { valvesOf } from "../inherit.ts";
import type { JobRule } from "./rule.ts";
import { meantSize, typedSize } from "./typed.ts";
import { hasImpossibleValve } from "./valve-size.ts";

/** Volume of a chamber by the intake valves' diameter [m²], 0.15–1.6 cm³ per mm: common practice, up to large old wedges. */
const PER_DIAMETER = [0.15e-3, 1.6e-3] as const;

/** A chamber far from what a head with such a valve has. */
export const chamberSize: JobRule = (input) =>
  (input.job.stages ?? []).flatMap((stage, index) => {
    const intake = input.inherited[index]?.intake;
    const valves = intake ? valvesOf(intake, 1).flatMap(({ head }) => head ?? []) : [];
    const stated: readonly (readonly [Path, unknown])[] = [
      [["stages", index, "chamber"], stage.chamber],
      ...Object.entries(stage.chambers ?? {}).map(
        ([key, volume]) => [["stages", index, "chambers", key], volume] as const,
      ),
    ];
    if (valves.length === 0 || (intake && hasImpossibleValve(intake))) return [];
    // Several valves share the chamber.
    const valve = valves.reduce((sum, head) => sum + head, 0);
    const [low, high] = [PER_DIAMETER[0] * valve, PER_DIAMETER[1] * valve];
    const odd = stated.flatMap(([path, volume]) =>
      typeof volume === "number" && (volume < low || volume > high) ? [{ path, volume }] : [],
    );
    return odd.slice(0, 1).map(({ path, volume }) => {
      const size = volume > high ? "large" : "small";
      const message = `a chamber of ${typedSize(path, volume, "volume", input)} is far too ${size} for this valve`;
      const hint = meantSize(path, "volume", [low, high], input) ?? "check the chamber and its unit";
      const note = odd.length > 1 ? { note: `and ${odd.length - 1} more of this stage` } : {};
      return warning("job/chamber-size", message, input.located.span(path), { hint, ...note });
    });
  });
