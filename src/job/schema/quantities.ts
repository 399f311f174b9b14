import { z } from "zod";
import { parsePercentage, parseQuantity, type ValueOf } from "../../units/parse-quantity.ts";
import type { Kind } from "../../units/table.ts";
import type { EditorForm, Sign } from "../editor-forms.ts";
import type { FaultParams } from "./plain.ts";

/** The units of bare numbers by kind: `units` of the job over those of the shop. */
export type DeclaredUnits = Readonly<Partial<Record<Kind, string>>>;

/**
 * `schema.transform(read)`, where `read` also takes the `units` among the options of the parse, which zod passes on to every
 * schema within: one schema serves jobs in whatever units.
 */
export function transformWithUnits<S extends z.ZodType, T>(
  schema: S,
  read: (input: z.output<S>, units: DeclaredUnits, context: z.core.$RefinementCtx) => T,
) {
  const step = z.transform<z.output<S>, T>((input, context) => read(input, unitsOf(context), context));
  const { run } = step._zod;
  step._zod.run = (payload, options) => run(Object.assign(payload, { units: unitsOf(options) }), options);
  return schema.pipe(step);
}

const unitsOf = (options: { readonly units?: DeclaredUnits } | object) => ("units" in options && options.units) || {};

/** As a value, ends the inheritance of a dimension from the stage above. */
export const NOT_MEASURED = "not measured";
export type NotMeasured = typeof NOT_MEASURED;

/** Kinds with only one accepted unit, which a bare number takes. */
const SOLE_UNITS: DeclaredUnits = { angle: "deg", rotation: "rpm" };

type RefusedQuantity = FaultParams & { readonly ok: false; readonly message: string };
type Accepted<K extends Kind> = { readonly ok: true; readonly value: ValueOf[K]; readonly resolution: number };

/** A quantity with the size of its last digit typed, in SI. */
export type TypedQuantity<K extends Kind> = { readonly value: ValueOf[K]; readonly resolution: number };

function schemasOf<K extends Kind>(kind: K) {
  type Read<V> = (typed: string, bare: string | undefined) => V | RefusedQuantity;
  const schema = <V>(description: string, example: string | number, sign: Sign, read: Read<V>, inherited = false) =>
    transformWithUnits(
      z.union([z.string(), z.number()]).meta({ description, examples: [example] }),
      (input, units, context): V => {
        const result = read(String(input).trim(), units[kind] ?? SOLE_UNITS[kind]);
        if (!isRefusal(result)) return result;
        const { message, code, hint } = result;
        context.addIssue({ code: "custom", message, params: { code, hint } });
        return z.NEVER;
      },
    ).meta({ description, form: { kind }, editor: { kind, sign, inherited } satisfies EditorForm });
  const value = (typed: string, bare: string | undefined, sign: Sign) => {
    const result = readQuantity(typed, kind, bare, sign);
    return result.ok ? result.value : result;
  };
  return {
    /** A quantity, above zero by default. */
    of: (description: string, example: string | number, sign: Sign = "positive") =>
      schema<ValueOf[K]>(description, example, sign, (typed, bare) => value(typed, bare, sign)),
    /** The same with the size of the last digit typed. */
    typed: (description: string, example: string | number, sign: Sign = "positive") =>
      schema<TypedQuantity<K>>(description, example, sign, (typed, bare) => {
        const result = readQuantity(typed, kind, bare, sign);
        return result.ok ? { value: result.value, resolution: result.resolution } : result;
      }),
    /** A dimension that later stages inherit: `not measured` ends that. */
    inherited: (description: string, example: string | number, sign: Sign = "positive") =>
      schema<ValueOf[K] | NotMeasured>(
        description,
        example,
        sign,
        (typed, bare) => (typed.toLowerCase() === NOT_MEASURED ? NOT_MEASURED : value(typed, bare, sign)),
        true,
      ),
    /** A quantity or a word in its place. */
    orWord: <W extends string>(word: W, description: string, example: string | number) => {
      const accept = (typed: string, bare: string | undefined): ValueOf[K] | NotMeasured | W | RefusedQuantity => {
        const said = typed.toLowerCase();
        if (said === word) return word;
        return said === NOT_MEASURED ? NOT_MEASURED : value(typed, bare, "positive");
      };
      return schema(description, example, "positive", accept).meta({
        description,
        form: { kind, text: true },
        editor: "text",
      });
    },
  };
}

/** Schemas for quantities by kind, where a bare number takes the declared unit of its kind. */
export const quantity = {
  length: schemasOf("length"),
  area: schemasOf("area"),
  volume: schemasOf("volume"),
  flow: schemasOf("flow"),
  pressure: schemasOf("pressure"),
  temperature: schemasOf("temperature"),
  angle: schemasOf("angle"),
  speed: schemasOf("speed"),
  rotation: schemasOf("rotation"),
  ratio: schemasOf("ratio"),
  force: schemasOf("force"),
  springRate: schemasOf("springRate"),
  mass: schemasOf("mass"),
  powerPerFlow: schemasOf("powerPerFlow"),
};

const isRefusal = (result: unknown): result is RefusedQuantity =>
  typeof result === "object" && result !== null && "ok" in result && result.ok === false;

/** Limits beyond any head [m, m², m³], low enough that areas and volumes of such lengths can be printed. */
const MOST: Readonly<Partial<Record<Kind, number>>> = { length: 100, area: 1e4, volume: 1e3 };

/** Parses one quantity; every ratio of a job file is a percentage. */
export function readQuantity<K extends Kind>(
  typed: string,
  kind: K,
  bare: string | undefined,
  sign: Sign = "positive",
): Accepted<K> | RefusedQuantity {
  const parsed = kind === "ratio" ? parsePercentage(typed) : parseQuantity(typed, kind, bare);
  if (!parsed.ok) return parsed;
  const size = typeof parsed.value === "number" ? parsed.value : parsed.value.value;
  const left = "leave the key out where nothing was measured";
  const refuse = (code: FaultParams["code"], message: string, hint = left): RefusedQuantity => ({
    ok: false,
    code,
    message,
    hint,
  });
  if (!(Math.abs(size) < (MOST[kind] ?? Number.POSITIVE_INFINITY)))
    return refuse("job/out-of-range", `\`${typed}\` is out of range`);
  if (sign !== "any" && size < 0)
    return refuse("job/negative", `\`${typed}\` is below zero`, `write ${typed.replace(/^-\s*/, "")}`);
  if (sign === "positive" && size === 0) return refuse("job/zero", `\`${typed}\` is zero`);
  return { ok: true, value: parsed.value as ValueOf[K], resolution: parsed.resolution };
}
