import type { Path } from "../../source/located.ts";
import { eachPort } from "./each-port.ts";
import { error, type JobRule } from "./rule.ts";
import { showLength } from "./show-length.ts";

type Rounded = { readonly width?: unknown; readonly height?: unknown; readonly corner?: unknown };

/** The corner radius of a section is at most half its shorter side. */
export const corners: JobRule = (inHand) =>
  eachPort(inHand).flatMap(({ path, own, facts }) => {
    const check = (shape: Rounded | undefined, place: Path) => {
      const { width, height, corner } = shape ?? {};
      if (typeof width !== "number" || typeof height !== "number" || typeof corner !== "number") return [];
      const most = Math.min(width, height) / 2;
      if (corner <= most * (1 + 1e-9)) return [];
      const message = `a corner of ${showLength(corner, inHand.units)} is more than half the shorter side`;
      const hint = `corner is a radius: at most ${showLength(most, inHand.units)} here`;
      return [error("job/corner", message, inHand.located.span(place), { hint })];
    };
    const rows = Array.isArray(own.sections) ? own.sections : [];
    return [
      ...(typeof own.pinch === "object" ? check(facts.pinch, [...path, "pinch", "corner"]) : []),
      ...(typeof own.opening === "object" ? check(facts.opening, [...path, "opening", "corner"]) : []),
      ...rows.flatMap((row) => check(row, [...path, "sections"])),
    ];
  });
