import { z } from "zod";
import { acceptedUnits, findUnit, type Kind, nearestUnit, nounOf, unitsOf } from "../../units/table.ts";
import { key, keys } from "./keys.ts";

/** Kinds a job may name a unit for. */
export const DECLARABLE = [
  "length",
  "area",
  "volume",
  "flow",
  "pressure",
  "temperature",
  "speed",
  "force",
  "power",
  "mass",
] as const satisfies readonly Kind[];

/** Units as one writes them. */
export const UNITS = { length: "in", volume: "cc", flow: "cfm", pressure: "inH2O" };

/** `units`: what a bare number means, and in which units the sheet prints. */
export const unitsSchema = () =>
  keys(Object.fromEntries(DECLARABLE.map((kind) => [kind, unitKey(kind)])) as UnitsShape).meta({
    description: "Units of bare numbers, and of the printed sheet",
  });

type UnitsShape = Record<(typeof DECLARABLE)[number], ReturnType<typeof unitKey>>;

const unitKey = (kind: Kind) => key(true, unit(kind));

const unit = (kind: Kind) =>
  z
    .string()
    .meta({ examples: unitsOf(kind).map(({ name }) => name) })
    .transform((typed, context): string => {
      const found = findUnit(kind, typed);
      if (found) return found.name;
      const near = nearestUnit(kind, typed);
      context.addIssue({
        code: "custom",
        message: `\`${typed}\` is not a unit of ${nounOf(kind)}`,
        params: {
          code: "units/unknown-unit",
          hint: near === undefined ? `write ${acceptedUnits(kind)}` : `did you mean ${near}?`,
        },
      });
      return z.NEVER;
    })
    .meta({ description: `Unit of ${nounOf(kind)}: ${acceptedUnits(kind)}` });
