import { z } from "zod";
import { parsePercentage, parseQuantity, type ValueOf } from "../../units/parse-quantity.ts";
import type { Kind } from "../../units/table.ts";
import type { FaultParams } from "./plain.ts";

/** The unit that a bare number takes, by kind: what the job or the shop says under `units`. */
export type DeclaredUnits = Readonly<Partial<Record<Kind, string>>>;

/** Where those are looked up whenever a value is read: one schema serves jobs of whatever units. */
export type Declared = { readonly units: DeclaredUnits };

/** As a value, ends the inheritance of a dimension from the stage above. */
export const NOT_MEASURED = "not measured";
export type NotMeasured = typeof NOT_MEASURED;

/** What a quantity may be: most lengths are above zero; a cut or a margin may be nothing; a centre may lie either side. */
type Sign = "positive" | "zero or more" | "any";

/** Only one unit is accepted for these, so that a bare number cannot be misread. */
const SOLE_UNITS: DeclaredUnits = { angle: "deg", rotation: "rpm" };

type Refusal = FaultParams & { readonly ok: false; readonly message: string };
type Accepted<K extends Kind> = { readonly ok: true; readonly value: ValueOf[K] };

/** Schemas for quantities, where a bare number takes the declared unit of its kind. */
export function quantities(declared: Declared) {
  const of = <K extends Kind>(kind: K) => {
    const schema = <V>(description: string, example: string | number, read: (typed: string) => V | Refusal) =>
      z
        .union([z.string(), z.number()])
        .meta({ description, examples: [example] })
        .transform((input, context): V => {
          const result = read(String(input).trim());
          if (!isRefusal(result)) return result;
          const { message, code, hint } = result;
          context.addIssue({ code: "custom", message, params: { code, hint } });
          return z.NEVER;
        })
        .meta({ description, form: { kind } });
    const value = (typed: string, sign: Sign) => {
      const result = readQuantity(typed, kind, declared.units[kind] ?? SOLE_UNITS[kind], sign);
      return result.ok ? result.value : result;
    };
    return {
      /** A quantity, above zero unless said otherwise. */
      of: (description: string, example: string | number, sign: Sign = "positive") =>
        schema<ValueOf[K]>(description, example, (typed) => value(typed, sign)),
      /** A dimension that later stages inherit: `not measured` ends that. */
      inherited: (description: string, example: string | number, sign: Sign = "positive") =>
        schema<ValueOf[K] | NotMeasured>(description, example, (typed) =>
          typed.toLowerCase() === NOT_MEASURED ? NOT_MEASURED : value(typed, sign),
        ),
    };
  };
  return {
    length: of("length"),
    area: of("area"),
    volume: of("volume"),
    flow: of("flow"),
    pressure: of("pressure"),
    temperature: of("temperature"),
    angle: of("angle"),
    speed: of("speed"),
    rotation: of("rotation"),
    ratio: of("ratio"),
    force: of("force"),
    mass: of("mass"),
    powerPerFlow: of("powerPerFlow"),
  };
}

export type Quantities = ReturnType<typeof quantities>;

const isRefusal = (result: unknown): result is Refusal =>
  typeof result === "object" && result !== null && "ok" in result && result.ok === false;

/** Beyond any head, and so far within what can be shown that areas and volumes made of such lengths can be [m, m², m³]. */
const MOST: Readonly<Partial<Record<Kind, number>>> = { length: 100, area: 1e4, volume: 1e3 };

/** One quantity as typed; every ratio of a job file is a percentage by nature. */
export function readQuantity<K extends Kind>(
  typed: string,
  kind: K,
  bare: string | undefined,
  sign: Sign = "positive",
): Accepted<K> | Refusal {
  const parsed = kind === "ratio" ? parsePercentage(typed) : parseQuantity(typed, kind, bare);
  if (!parsed.ok) return parsed;
  const size = typeof parsed.value === "number" ? parsed.value : parsed.value.value;
  const hint = "leave the key out where nothing was measured";
  const refuse = (code: FaultParams["code"], message: string): Refusal => ({ ok: false, code, message, hint });
  if (!(Math.abs(size) < (MOST[kind] ?? Number.POSITIVE_INFINITY)))
    return refuse("job/out-of-range", `\`${typed}\` is out of range`);
  if (sign !== "any" && size < 0) return refuse("job/negative", `\`${typed}\` is below zero`);
  if (sign === "positive" && size === 0) return refuse("job/zero", `\`${typed}\` is zero`);
  return { ok: true, value: parsed.value as ValueOf[K] };
}
