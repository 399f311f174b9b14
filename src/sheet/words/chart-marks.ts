import type { Series } from "../content.ts";

/** What the lines and marks of a flow chart stand for; `latest` names the one stage of several that has bars. */
export function chartMarkWords(series: readonly Series[], latest: string | undefined): readonly string[] {
  const points = series.flatMap((line) => line.points);
  return [
    "Lines are a guide.",
    ...(points.some(({ plusMinus }) => plusMinus !== undefined)
      ? [`Bars show ±${latest === undefined ? "" : `, ${latest.toLowerCase()} only`}, where larger than the marks.`]
      : []),
    ...readingMarkWords(points),
  ];
}

/** What the marks of doubtful and unsteady readings stand for. */
export const readingMarkWords = (points: Series["points"]): readonly string[] => [
  ...(points.some(({ kind }) => kind === "doubtful") ? ["Struck through: doubtful, not used."] : []),
  ...(points.some(({ kind }) => kind === "noisy") ? ["Ringed: unsteady, but used."] : []),
];
