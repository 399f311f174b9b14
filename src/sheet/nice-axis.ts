/** An axis of round numbers that covers the limits given; its ends are ticks. */
type NiceAxis = {
  readonly start: number;
  readonly end: number;
  readonly ticks: readonly number[];
  readonly decimals: number;
};

/** Steps that people count in. */
const STEPS = [1, 2, 2.5, 5, 10];

/**
 * The shortest axis of round steps, at most `maxTicks` ticks (3 or more: two limits and zero), from at or below `low` to at or
 * above `high`. Equal or swapped limits are an axis too. Decimals are those that the ticks need, no more.
 */
export function niceAxis(low: number, high: number, maxTicks: number): NiceAxis {
  if (!(Number.isFinite(low) && Number.isFinite(high)))
    throw new RangeError(`an axis needs two numbers: ${low} to ${high}`);
  if (!(maxTicks >= 3)) throw new RangeError(`an axis needs room for three ticks: ${maxTicks}`);
  const [from, to] = widenLimits(Math.min(low, high), Math.max(low, high));
  for (let exponent = Math.floor(Math.log10((to - from) / maxTicks)) - 1; ; exponent++) {
    for (const step of STEPS) {
      // The tolerance keeps ends that miss a step by rounding alone.
      const first = Math.floor(toSteps(from, step, exponent) + 1e-9);
      const last = Math.ceil(toSteps(to, step, exponent) - 1e-9);
      if (last - first + 1 > maxTicks) continue;
      const ticks = Array.from({ length: last - first + 1 }, (_, i) => scaleByTen((first + i) * step, exponent));
      return {
        start: ticks[0]!,
        end: ticks.at(-1)!,
        ticks,
        decimals: Math.max(0, -exponent + (step === 2.5 ? 1 : 0) - (step === 10 ? 1 : 0)),
      };
    }
  }
}

/** Limits that coincide are given room: up from zero, else by a tenth on both sides. */
function widenLimits(low: number, high: number): readonly [number, number] {
  if (high - low > Math.max(Math.abs(low), Math.abs(high)) * 1e-9) return [low, high];
  if (high === 0) return [0, 1];
  const room = Math.abs(high) / 10;
  return [low - room, high + room];
}

/** Steps from zero to a value, and back; negative powers of ten divide, for 0.1 is not exact in binary. */
const toSteps = (value: number, step: number, exponent: number) =>
  (exponent < 0 ? value * 10 ** -exponent : value / 10 ** exponent) / step;
const scaleByTen = (value: number, exponent: number) =>
  (exponent < 0 ? value / 10 ** -exponent : value * 10 ** exponent) + 0;
