import { SIDES } from "../../model/model.ts";
import { keyPlace, type StageRule } from "./check-input.ts";

/** Sizes inherited over a changed flow, from which nothing is made. @source common practice */
export const staleDimensions: StageRule = ({ stage, index, source }) =>
  SIDES.flatMap((side) => {
    const { stale = [], staleIfChanged = [] } = stage.ports[side] ?? {};
    return staleIfChanged.flatMap(({ keys, since }) => {
      if (!keys.every((key) => stale.includes(key))) return [];
      const names = keys.map((key) => `\`${key}\``).join(", ");
      return [
        {
          code: "figures/stale-dimension" as const,
          message: `${names} of the ${side} port ${keys.length === 1 ? "was" : "were"} not measured again in \`${stage.name}\``,
          note: `its flow has clearly changed since \`${since.name}\`, so nothing is made from ${keys.length === 1 ? "it" : "them"}`,
          hint: `measure again, or write \`${keys[0]}: not measured\``,
          ...keyPlace(source, ["stages", index, side], ["stages", index, "name"]),
        },
      ];
    });
  });
