import type { PathCommand } from "./drawing.ts";
import { bottom, right } from "./geometry.ts";
import type { Box } from "./scenegraph.ts";
import { tidy } from "./tidy.ts";

/** A box as a closed path. */
export function boxPath(box: Box): readonly PathCommand[] {
  const [left, top, end, foot] = [tidy(box.x), tidy(box.y), tidy(right(box)), tidy(bottom(box))];
  return [["M", left, top], ["L", end, top], ["L", end, foot], ["L", left, foot], ["Z"]];
}
