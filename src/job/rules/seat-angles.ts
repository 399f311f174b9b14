import { error } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import type { Path } from "../../parse/yaml/source-document.ts";
import { ofEachPort } from "./each-port.ts";

/** A seat angle is counted from the face of the head, between flat and upright. */
export const seatAngles = ofEachPort(({ path, own }, inHand) => {
  if (typeof own.seat !== "object") return undefined;
  const { angle, top, bottom } = own.seat;
  const faults: Diagnostic[] = [];
  const look = (value: unknown, ...key: Path) => {
    if (typeof value !== "number" || value < Math.PI / 2) return;
    const at = inHand.located.span([...path, "seat", ...key]);
    const hint = "count it from the face of the head: 30 deg is flatter than 45 deg";
    faults.push(error("job/seat-angle", "a seat angle is less than 90 deg", at, { hint }));
  };
  look(angle, "angle");
  look(top, "top");
  if (Array.isArray(bottom)) for (const [at, value] of bottom.entries()) look(value, "bottom", at);
  else look(bottom, "bottom");
  return faults;
});
