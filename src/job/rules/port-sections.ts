import { error } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Path } from "../../parse/yaml/source-document.ts";
import { ofEachPort, showLength } from "./rule.ts";
import { isTyped, typedSize } from "./typed.ts";

/** A pinch is a width and a height, or an area. */
export const pinchShape = ofEachPort(({ path, own, facts }, input) => {
  if (typeof own.pinch !== "object") return undefined;
  const at = (key?: string) => input.located.span(key === undefined ? [...path, "pinch"] : [...path, "pinch", key]);
  const { width, height, corner, area } = own.pinch;
  if (area !== undefined && (width ?? height ?? corner) !== undefined)
    return [
      error("job/pinch-shape", "the pinch has both a size and an area", at("area"), {
        hint: "keep width and height; the area follows from them",
      }),
    ];
  const whole = facts.pinch;
  if (!whole) return undefined;
  if (whole.area === undefined && (whole.width === undefined || whole.height === undefined)) {
    const missing = (["width", "height"] as const).find((key) => whole[key] === undefined)!;
    if (isTyped(input.located, [...path, "pinch"], missing, "area")) return undefined;
    return [
      error("job/pinch-shape", `the pinch lacks its \`${missing}\``, at(), {
        hint: "give width and height, or an area",
      }),
    ];
  }
  return undefined;
});

type Rounded = { readonly width?: unknown; readonly height?: unknown; readonly corner?: unknown };

/** The corner radius of a section is at most half its shorter side. */
export const corners = ofEachPort(({ path, own, facts }, input) => {
  const faults: Diagnostic[] = [];
  const check = (shape: Rounded | undefined, ...place: Path) => {
    const { width, height, corner } = shape ?? {};
    if (typeof width !== "number" || typeof height !== "number" || typeof corner !== "number") return;
    const most = Math.min(width, height) / 2;
    if (corner <= most * (1 + 1e-9)) return;
    const message = `a corner of ${typedSize([...path, ...place], corner, "length", input)} is more than half the shorter side`;
    const hint = `corner is a radius: at most ${showLength(most, input.units)} here`;
    faults.push(error("job/corner", message, input.located.span([...path, ...place]), { hint }));
  };
  if (typeof own.pinch === "object") check(facts.pinch, "pinch", "corner");
  if (typeof own.opening === "object") check(facts.opening, "opening", "corner");
  if (typeof own.gasket_window === "object") check(facts.gasket_window, "gasket_window", "corner");
  if (Array.isArray(own.sections)) for (const row of own.sections) check(row, "sections");
  return faults;
});
