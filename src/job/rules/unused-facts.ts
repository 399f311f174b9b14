import { eachPort } from "./each-port.ts";
import { type JobRule, warning } from "./rule.ts";

/** Facts that nothing can be made of for want of another: said, for the porter believes that they count. */
export const unusedFacts: JobRule = (inHand) => [...seatsWithoutAngle(inHand), ...durationsWithoutPlace(inHand)];

const seatsWithoutAngle: JobRule = (inHand) =>
  eachPort(inHand).flatMap(({ path, own, facts, side }) =>
    own.seat !== undefined && facts.seat !== undefined && facts.seat.angle === undefined
      ? [
          warning(
            "job/seat-without-angle",
            `the ${side} seat has no angle, so it is not used`,
            inHand.located.keySpan([...path, "seat"]),
            {
              hint: "write { angle: 45 deg, width: 0.060 in }",
            },
          ),
        ]
      : [],
  );

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
