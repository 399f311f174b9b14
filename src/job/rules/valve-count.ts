import { eachPort } from "./each-port.ts";
import { error, type JobRule } from "./rule.ts";

/** A list of unlike valves names each valve of the port. */
export const valveCount: JobRule = (inHand) =>
  eachPort(inHand).flatMap(({ path, own, facts }) => {
    if (!Array.isArray(own.valve) || facts.valves === undefined || own.valve.length === facts.valves) return [];
    const message = `\`valve\` lists ${own.valve.length}, but the port feeds ${facts.valves} valves`;
    return [
      error("job/valve-count", message, inHand.located.span([...path, "valve"]), {
        hint: "list every valve of the port, or give one size for all",
      }),
    ];
  });
