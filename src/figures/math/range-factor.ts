/** Mean and standard deviation of the range of n normal values, in standard deviations: d₂ and d₃ for n = 2 to 25. */
const TABLE: readonly (readonly [d2: number, d3: number])[] = [
  [1.128, 0.853],
  [1.693, 0.888],
  [2.059, 0.88],
  [2.326, 0.864],
  [2.534, 0.848],
  [2.704, 0.833],
  [2.847, 0.82],
  [2.97, 0.808],
  [3.078, 0.797],
  [3.173, 0.787],
  [3.258, 0.778],
  [3.336, 0.77],
  [3.407, 0.763],
  [3.472, 0.756],
  [3.532, 0.75],
  [3.588, 0.744],
  [3.64, 0.739],
  [3.689, 0.734],
  [3.735, 0.729],
  [3.778, 0.724],
  [3.819, 0.72],
  [3.858, 0.716],
  [3.895, 0.712],
  [3.931, 0.708],
];

/**
 * Standard deviation from the range of a few repeats, with the degrees of freedom that such an estimate is worth: those of
 * a chi distribution with the same relative spread, never more than n − 1.
 *
 *     s = range ÷ d₂(n),  ν = ½ (d₂ ÷ d₃)² + ¼
 *
 * @param range  largest less smallest, in any unit, 0 or greater
 * @param of     number of repeats n, 2 or more; above 25 taken as 25, which errs to the safe side
 * @returns      s in the unit of the range, and ν [1]; 0 for a range of 0; undefined below 2 repeats
 * @source       d₂, d₃: control-chart factors, ASTM Manual on Presentation of Data and Control Chart Analysis, table of factors (from memory; the tests compute d₂ anew)
 * @example      rangeToDeviation(2.326, 5) // { s: 1, dof: 3.874 }
 */
export function rangeToDeviation(range: number, of: number): { s: number; dof: number } | undefined {
  const row = TABLE[Math.min(Math.floor(of), 25) - 2];
  if (row === undefined) return undefined;
  const [d2, d3] = row;
  return { s: range / d2, dof: Math.min((d2 / d3) ** 2 / 2 + 0.25, Math.floor(of) - 1) };
}
