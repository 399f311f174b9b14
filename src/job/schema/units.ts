import { z } from "zod";
import type { YamlValue } from "../../parse/yaml/source-document.ts";
import { acceptedUnits, findUnit, type Kind, nearestUnit, nounOf, type Unit, unitsOf } from "../../units/table.ts";
import { key, keys } from "./keys.ts";
import type { DeclaredUnits } from "./quantities.ts";

/** The kinds of which a file may declare the unit. */
const DECLARABLE = [
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

/** Example of a file's units. */
export const UNITS = { length: "in", volume: "cc", flow: "cfm", pressure: "inH2O" };

/** The units of bare numbers and of the printed sheet. */
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

/**
 * The units that a file declares, over those of the shop. They are read first, because bare numbers depend on them. An
 * unknown unit, which the schema refuses, is replaced by a known one here, so that not every bare number is refused as well.
 */
export function declaredUnits(value: YamlValue, shop: DeclaredUnits = {}): DeclaredUnits {
  const typed = typeof value === "object" && "units" in value ? value.units : undefined;
  if (typeof typed !== "object") return shop;
  const declared: { [kind in Kind]?: string } = { ...shop };
  for (const kind of DECLARABLE) {
    const text = (typed as { readonly [key: string]: YamlValue })[kind];
    if (typeof text === "string") declared[kind] = nearestUnitName(kind, text);
  }
  return declared;
}

const nearestUnitName = (kind: Kind, typed: string): string =>
  findUnit(kind, typed)?.name ?? nearestUnit(kind, typed) ?? (unitsOf(kind)[0] as Unit).name;
