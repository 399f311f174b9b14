import { eachPort } from "./each-port.ts";
import { error, type JobRule } from "./rule.ts";

/** A seat angle is counted from the face of the head, between flat and upright. */
export const seatAngles: JobRule = (inHand) =>
  eachPort(inHand).flatMap(({ path, own }) => {
    if (typeof own.seat !== "object") return [];
    const { angle, top, bottom } = own.seat;
    const bottoms = Array.isArray(bottom)
      ? bottom.map((value, at) => ({ value, key: ["bottom", at] }))
      : [{ value: bottom, key: ["bottom"] }];
    return [{ value: angle, key: ["angle"] }, { value: top, key: ["top"] }, ...bottoms].flatMap(({ value, key }) =>
      typeof value === "number" && value >= Math.PI / 2
        ? [
            error(
              "job/seat-angle",
              "a seat angle is less than 90 deg",
              inHand.located.span([...path, "seat", ...key]),
              {
                hint: "count it from the face of the head: 30 deg is flatter than 45 deg",
              },
            ),
          ]
        : [],
    );
  });
