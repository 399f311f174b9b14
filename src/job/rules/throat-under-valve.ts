import { error } from "../../diagnostics/build.ts";
import { valvesOf } from "../inherit.ts";
import { ofEachPort } from "./each-port.ts";
import { showLength } from "./show-length.ts";

/** The throat lies inside the seat: it cannot be wider than the valve less the seat on both sides. */
export const throatUnderValve = ofEachPort(({ side, stage, path, own, facts }, inHand) => {
  const { throat } = facts;
  if (throat === undefined) return undefined;
  const valve = Math.min(...valvesOf(facts, 1).map(({ head }) => head ?? Number.POSITIVE_INFINITY));
  // Seat width is measured along the face; the plan sees its radial part. No angle known: the whole width would refuse good jobs.
  const { width = 0, angle = Math.PI / 2 } = facts.seat ?? {};
  const widest = valve - 2 * width * Math.cos(angle);
  if (throat <= widest * (1 + 1e-9)) return undefined;
  const key = own.throat !== undefined ? "throat" : own.valve !== undefined ? "valve" : "seat";
  if (own[key] === undefined) return undefined;
  const limit = showLength(widest, inHand.units);
  return [
    error(
      "job/throat-over-valve",
      `the ${side} throat of ${showLength(throat, inHand.units)} is wider than the valve leaves open`,
      inHand.located.span([...path, key]),
      {
        note: `in \`${stage.name}\` the valve is ${showLength(valve, inHand.units)}; less the seat on both sides that leaves ${limit}`,
        hint: "check throat, valve and seat width for swapped digits or units",
      },
    ),
  ];
});
