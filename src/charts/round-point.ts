/** A position to a thousandth of a point: finer than any press, and short in the file. */
export function roundPoint(value: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`a chart position is not a number: ${value}`);
  return Math.round(value * 1000) / 1000 + 0;
}
