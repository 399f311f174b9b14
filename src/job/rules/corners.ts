import { error } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Path } from "../../parse/yaml/source-document.ts";
import { ofEachPort } from "./each-port.ts";
import { showLength } from "./show-length.ts";

type Rounded = { readonly width?: unknown; readonly height?: unknown; readonly corner?: unknown };

/** The corner radius of a section is at most half its shorter side. */
export const corners = ofEachPort(({ path, own, facts }, inHand) => {
  const faults: Diagnostic[] = [];
  const look = (shape: Rounded | undefined, ...place: Path) => {
    const { width, height, corner } = shape ?? {};
    if (typeof width !== "number" || typeof height !== "number" || typeof corner !== "number") return;
    const most = Math.min(width, height) / 2;
    if (corner <= most * (1 + 1e-9)) return;
    const message = `a corner of ${showLength(corner, inHand.units)} is more than half the shorter side`;
    const hint = `corner is a radius: at most ${showLength(most, inHand.units)} here`;
    faults.push(error("job/corner", message, inHand.located.span([...path, ...place]), { hint }));
  };
  if (typeof own.pinch === "object") look(facts.pinch, "pinch", "corner");
  if (typeof own.opening === "object") look(facts.opening, "opening", "corner");
  if (Array.isArray(own.sections)) for (const row of own.sections) look(row, "sections");
  return faults;
});
