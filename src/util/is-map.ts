/** Whether a value is an object with keys, not a list and not null. */
export const isMap = (value: unknown): value is { readonly [key: string]: unknown } =>
  typeof value === "object" && value !== null && !Array.isArray(value);
