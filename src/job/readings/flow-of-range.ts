import type { CubicMetresPerSecond } from "../../units/quantity.ts";

type Ranges = Readonly<
  Record<string, { readonly intake?: CubicMetresPerSecond; readonly exhaust?: CubicMetresPerSecond }>
>;

/** Flow at 100 % of a range. A bench with a single range need not name it in the table. */
export function flowOfRange(
  ranges: Ranges,
  range: string | undefined,
  side: "intake" | "exhaust",
): CubicMetresPerSecond | undefined {
  const names = Object.keys(ranges);
  const name = range ?? (names.length === 1 ? names[0] : undefined);
  return name !== undefined && Object.hasOwn(ranges, name) ? ranges[name]?.[side] : undefined;
}
