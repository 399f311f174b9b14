import { error } from "../../diagnostics/build.ts";
import { ofEachPort } from "./each-port.ts";

/** A pinch is a width and a height, or an area. */
export const pinchShape = ofEachPort(({ path, own, facts }, inHand) => {
  if (typeof own.pinch !== "object") return undefined;
  const at = (key?: string) => inHand.located.span(key === undefined ? [...path, "pinch"] : [...path, "pinch", key]);
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
    const missing = whole.width === undefined ? "width" : "height";
    return [
      error("job/pinch-shape", `the pinch lacks its \`${missing}\``, at(), {
        hint: "give width and height, or an area",
      }),
    ];
  }
  return undefined;
});
