import { z } from "zod";

/** The parameters of a schema issue: its stable code, and a hint at what to write instead. */
export type FaultParams = { readonly code: `${string}/${string}`; readonly hint?: string };

/** YAML scalars are parsed as text; editors that use the JSON Schema see numbers too. */
const scalar = z.union([z.string(), z.number()]);
/** A name may be `true` or `no` as well. */
const anyWord = z.union([z.string(), z.number(), z.boolean()]).meta({ editor: "text" });

const withDescription = (description: string, examples: readonly (string | number)[]) =>
  scalar.meta(examples.length > 0 ? { description, examples: [...examples] } : { description });

/** Text kept as typed. */
export const text = (description: string, ...examples: string[]) =>
  anyWord
    .meta(examples.length > 0 ? { description, examples } : { description })
    .transform((value) => String(value))
    .meta({ description, form: { text: true } });

/** A list of texts; a single text is a list of one. */
export const texts = (description: string) => textsOf(z.union([anyWord, z.array(anyWord)]), description);

/** A list of texts, at least one; editors offer the examples. */
export const someTexts = (description: string, examples: readonly string[]) => {
  const meta = { examples: [...examples] };
  const one = anyWord.meta({ ...meta, editor: "text" });
  return textsOf(z.union([anyWord, z.array(one).min(1)]).meta(meta), description);
};

const textsOf = (
  schema: z.ZodType<string | number | boolean | readonly (string | number | boolean)[]>,
  description: string,
) =>
  schema
    .transform((value): readonly string[] => (Array.isArray(value) ? value.map(String) : [String(value)]))
    .meta({ description, form: { text: true } });

/** A whole number, 1 or greater. */
export const count = (description: string) =>
  withDescription(description, [1])
    .transform((value, context): number => {
      const typed = String(value).trim();
      if (/^\d{1,6}$/.test(typed) && Number(typed) >= 1) return Number(typed);
      context.addIssue({
        code: "custom",
        message: `\`${typed}\` is not a whole number of 1 or more`,
        params: { code: "job/count", hint: countHint(typed) } satisfies FaultParams,
      });
      return z.NEVER;
    })
    .meta({ description, form: { number: true }, editor: "count" });

const NUMERALS = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
const countHint = (typed: string) => {
  const number = NUMERALS.indexOf(typed.toLowerCase()) + 1;
  return number > 0 ? `write ${number}` : "write a whole number, such as 4";
};

/** A plain number. */
export const plainNumber = (description: string, ...examples: number[]) =>
  withDescription(description, examples)
    .transform((value, context): number => {
      const typed = String(value).trim();
      const number = Number(typed);
      if (typed !== "" && Number.isFinite(number) && number > 0) return number;
      context.addIssue({
        code: "custom",
        message: `\`${typed}\` is not a number above zero`,
        params: { code: "job/number" } satisfies FaultParams,
      });
      return z.NEVER;
    })
    .meta({ description, form: { number: true }, editor: "number" });

/** A place in a picture: shares of its width from the left, and of its height from the top. */
export const pictureFocus = (description: string) =>
  z
    .array(scalar)
    .meta({ description, examples: [[0.5, 0.4]] })
    .transform((values, context): readonly [number, number] => {
      const [x = Number.NaN, y = Number.NaN, ...more] = values.map((value) => shareOf(String(value)));
      if (more.length === 0 && x >= 0 && x <= 1 && y >= 0 && y <= 1) return [x, y];
      context.addIssue({
        code: "custom",
        message: `\`[${values.join(", ")}]\` is not a place in a picture`,
        params: {
          code: "job/focus",
          hint: "write two numbers from 0 to 1, from the left and from the top, such as [0.5, 0.4]",
        } satisfies FaultParams,
      });
      return z.NEVER;
    })
    .meta({ description, form: { text: true } });

const shareOf = (typed: string) => (typed.trim() === "" ? Number.NaN : Number(typed));

/** true or false. */
export const flag = (description: string) =>
  z
    .union([z.enum(["true", "false"]), z.boolean()])
    .transform((value) => value === true || value === "true")
    .meta({ description, form: { text: true }, editor: "flag" });

/** One of a closed list of words. */
export const word = <const W extends readonly [string, ...string[]]>(words: W, description: string) =>
  z.enum(words).meta({ description, form: { text: true } });

/** A day that exists, year first. */
export const date = (description: string) =>
  z
    .string()
    .meta({ description, examples: ["2026-03-18"] })
    .transform((value, context): string => {
      const fault = dateFault(value);
      if (!fault) return value.trim();
      context.addIssue({ code: "custom", ...fault });
      return z.NEVER;
    })
    .meta({ description, form: { text: true }, editor: "date" });

/** What is wrong with a date, or nothing. Year first: then nobody takes the month for the day. */
function dateFault(typed: string): { readonly message: string; readonly params: FaultParams } | undefined {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(typed.trim());
  const meant = rearrangedDate(typed.trim());
  const hint = !match && meant ? `did you mean ${meant}?` : "write year, month and day, such as 2026-03-18";
  if (!match) return { message: `\`${typed}\` is not a date`, params: { code: "job/date", hint } };
  const [year, month, day] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const parsed = new Date(Date.UTC(year, month - 1, day));
  const exists = year >= 1000 && parsed.getUTCMonth() === month - 1 && parsed.getUTCDate() === day;
  return exists ? undefined : { message: `the day \`${typed}\` does not exist`, params: { code: "job/date", hint } };
}

/** A date in another order or without its zeros, year first; undefined where the day could be the month. */
function rearrangedDate(typed: string): string | undefined {
  const parts = /^(\d{1,4})([-./ ])(\d{1,2})\2(\d{1,4})$/.exec(typed);
  if (!parts) return undefined;
  const [first, separator, middle, last] = [parts[1]!, parts[2], parts[3]!, parts[4]!];
  const padded = (year: string, month: string, day: string) =>
    Number(month) <= 12 ? [year, month.padStart(2, "0"), day.padStart(2, "0")].join("-") : undefined;
  if (first.length === 4 && last.length <= 2) return padded(first, middle, last);
  if (last.length !== 4 || first.length > 2) return undefined;
  // With points between, the day stands first; else only a number above 12 shows which is the day.
  if (separator === "." || Number(first) > 12) return padded(last, middle, first);
  return Number(middle) > 12 ? padded(last, first, middle) : undefined;
}

/** A list of values of one kind. */
export const list = <S extends z.ZodType>(description: string, item: S) => z.array(item).meta({ description });

/** A map whose keys are the shop's own names or numbers. */
export const record = <S extends z.ZodType>(description: string, value: S) =>
  z.record(z.string(), value).meta({ description });
