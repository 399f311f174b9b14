import { valvesOf } from "../inherit.ts";
import { eachPort } from "./each-port.ts";
import { error, type JobRule } from "./rule.ts";
import { showLength } from "./show-length.ts";

/** A stem as thick as the throat would close it. */
export const stemUnderThroat: JobRule = (inHand) =>
  eachPort(inHand).flatMap(({ side, path, own, facts }) => {
    const stems = valvesOf(facts, 1).flatMap((valve) => valve.stem ?? []);
    if (facts.throat === undefined || stems.length === 0) return [];
    const stem = Math.max(...stems);
    if (stem < facts.throat) return [];
    const key = own.stem !== undefined ? "stem" : own.throat !== undefined ? "throat" : "valve";
    if (own[key] === undefined) return [];
    return [
      error(
        "job/stem-over-throat",
        `the ${side} stem of ${showLength(stem, inHand.units)} fills the throat of ${showLength(facts.throat, inHand.units)}`,
        inHand.located.span([...path, key]),
        { hint: "check stem and throat for swapped values or units" },
      ),
    ];
  });
