import { warning } from "../../diagnostics/build.ts";
import { ofEachPort } from "./each-port.ts";
import type { JobRule } from "./rule.ts";

/** Facts that nothing can be made of for want of another: said, for the porter believes that they count. */
export const unusedFacts: JobRule = (inHand) => [...seatsWithoutAngle(inHand), ...durationsWithoutPlace(inHand)];

const seatsWithoutAngle = ofEachPort(({ path, own, facts, side }, { located }) => {
  if (own.seat === undefined || facts.seat === undefined || facts.seat.angle !== undefined) return undefined;
  const hint = "write { angle: 45 deg, width: 0.060 in }";
  const message = `the ${side} seat has no angle, so it is not used`;
  return [warning("job/seat-without-angle", message, located.keySpan([...path, "seat"]), { hint })];
});

const durationsWithoutPlace: JobRule = ({ job, located }) =>
  (["intake_cam", "exhaust_cam"] as const).flatMap((key) => {
    const cam = job.engine?.[key];
    const at = cam?.duration === undefined ? cam?.durations?.[0]?.at : cam.at;
    if (cam === undefined || at === undefined || at === 0 || cam.of !== undefined) return [];
    const place = located.keySpan(["engine", key, cam.duration === undefined ? "durations" : "duration"]);
    return [
      warning("job/cam-without-of", "this duration is not used: where its check lift is measured is not said", place, {
        hint: "write `of: valve` or `of: follower`",
      }),
    ];
  });
