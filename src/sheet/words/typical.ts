/** Fewer parts than this are not called typical. */
const FEWEST = 3;

/** The promise of a catalogue page: "typical" is earned. */
export const typical = (n: number): string =>
  n >= FEWEST ? `Typical of ${n} parts measured` : `Measured on ${n} ${n === 1 ? "part" : "parts"}`;
