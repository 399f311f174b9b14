import { error } from "../../diagnostics/build.ts";
import { valvesOf } from "../inherit.ts";
import { ofEachPort } from "./each-port.ts";
import { showLength } from "./show-length.ts";

/** A stem as thick as the throat would close it. */
export const stemUnderThroat = ofEachPort(({ side, path, own, facts }, inHand) => {
  const { throat } = facts;
  if (throat === undefined) return undefined;
  const stem = Math.max(...valvesOf(facts, 1).map((valve) => valve.stem ?? 0));
  if (!(stem >= throat)) return undefined;
  const key = own.stem !== undefined ? "stem" : own.throat !== undefined ? "throat" : "valve";
  if (own[key] === undefined) return undefined;
  return [
    error(
      "job/stem-over-throat",
      `the ${side} stem of ${showLength(stem, inHand.units)} fills the throat of ${showLength(throat, inHand.units)}`,
      inHand.located.span([...path, key]),
      { hint: "check stem and throat for swapped values or units" },
    ),
  ];
});
