import { error } from "../../diagnostics/build.ts";
import { ofEachPort } from "./each-port.ts";

/** A list of unlike valves names each valve of the port. */
export const valveCount = ofEachPort(({ path, own, facts }, inHand) => {
  if (!Array.isArray(own.valve) || facts.valves === undefined || own.valve.length === facts.valves) return undefined;
  const message = `\`valve\` lists ${own.valve.length}, but the port feeds ${facts.valves} valves`;
  return [
    error("job/valve-count", message, inHand.located.span([...path, "valve"]), {
      hint: "list every valve of the port, or give one size for all",
    }),
  ];
});
