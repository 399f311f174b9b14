/** The values of a PDF file (ISO 32000-1, 7.3) as plain data. Strings are Latin-1 bytes; a stream keeps its bytes as stored. */
export type Value = null | boolean | number | Name | Text | Ref | Value[] | Dict | Stream;
export type Name = { readonly kind: "name"; name: string };
export type Text = { readonly kind: "text"; text: string };
export type Ref = { readonly kind: "ref"; readonly number: number };
export type Dict = { readonly kind: "dict"; readonly entries: Map<string, Value> };
export type Stream = { readonly kind: "stream"; readonly entries: Map<string, Value>; data: Buffer };

export const name = (value: string): Name => ({ kind: "name", name: value });
export const text = (value: string): Text => ({ kind: "text", text: value });
export const ref = (number: number): Ref => ({ kind: "ref", number });
export const dict = (entries: Record<string, Value>): Dict => ({
  kind: "dict",
  entries: new Map(Object.entries(entries)),
});

export const isKind = <K extends Exclude<Value, null | boolean | number | Value[]>["kind"]>(
  value: Value | undefined,
  kind: K,
): value is Extract<Exclude<Value, null | boolean | number | Value[]>, { kind: K }> =>
  typeof value === "object" && value !== null && !Array.isArray(value) && value.kind === kind;

export const nameOf = (value: Value | undefined): string | undefined =>
  isKind(value, "name") ? value.name : undefined;

/** A text string: UTF-16 when it says so, else one byte a letter. */
export function textOf(value: Value | undefined): string | undefined {
  if (!isKind(value, "text")) return undefined;
  if (!value.text.startsWith("\xfe\xff")) return value.text;
  return Buffer.from(value.text.slice(2), "latin1").swap16().toString("utf16le");
}
