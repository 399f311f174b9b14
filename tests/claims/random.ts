/** Numbers from a fixed seed: the same on every run and machine. */
export type Random = {
  readonly uniform: (low: number, high: number) => number;
  readonly normal: (sd: number) => number;
};

/** Marsaglia's xorshift of 32 bits; normal values by Box and Muller's transform. */
export function createRandom(seed: number): Random {
  let state = Math.imul(seed + 1, 0x9e3779b1) | 1;
  const next = () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return ((state >>> 0) + 0.5) / 2 ** 32;
  };
  for (let k = 0; k < 20; k++) next();
  return {
    uniform: (low, high) => low + (high - low) * next(),
    normal: (sd) => sd * Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next()),
  };
}
