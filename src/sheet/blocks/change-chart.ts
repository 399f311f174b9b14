import { isClear } from "../../model/verdict.ts";
import type { BarChart } from "../content.ts";
import { type BlockBuilder, endStages, overallComparison } from "../context.ts";
import { niceAxis } from "../nice-axis.ts";
import { section } from "../section.ts";
import { averageChangeWords } from "../words/average-change.ts";
import { barAlt } from "../words/chart-alt.ts";
import { differenceWords } from "../words/conditions.ts";
import { capitalize } from "../words/text.ts";
import { mayPrint } from "../words/verdicts.ts";
import { CHART_HEIGHT } from "./flow-chart.ts";

/** Change at each lift that both stages have, with its ±. Hollow where nothing is claimed. */
export const changeChart: BlockBuilder = (context, place) => {
  const { display, theme } = context;
  const { first, last } = endStages(context);
  const panels = context.sides.flatMap((side) => {
    const pair = overallComparison(context, side);
    const changes =
      pair?.changes.filter(
        (change) => !change.interpolated && mayPrint(change.verdict, change.uncertainty_m3_s, pair),
      ) ?? [];
    return pair && changes.length > 0 ? [{ side, pair, changes }] : [];
  });
  if (panels.length === 0 || !first || !last) return [];
  const reach = panels.flatMap(({ changes }) =>
    changes.flatMap(({ change_m3_s: change, uncertainty_m3_s: u = 0 }) =>
      [change - u, change + u].map((value) => display.number("flow", value)),
    ),
  );
  const y = {
    title: `Change in flow (${display.unit("flow")})`,
    ...niceAxis(Math.min(0, ...reach), Math.max(0, ...reach) || 1, 6),
  };
  return section(place, "Change at each lift", [
    {
      kind: "charts",
      height: place.cell.height ?? CHART_HEIGHT,
      charts: panels.map(({ side, pair, changes }) => {
        const category = (lift: number) => display.digits("lift", lift);
        const chart: BarChart = {
          kind: "bar",
          x: { title: `Lift (${display.unit("lift")})`, categories: changes.map(({ lift_m }) => category(lift_m)) },
          y,
          bars: changes.map(({ lift_m, change_m3_s, uncertainty_m3_s, verdict }) => ({
            category: category(lift_m),
            value: display.number("flow", change_m3_s),
            color: theme.series.latest.color,
            hollow: !isClear(verdict),
            ...(uncertainty_m3_s === undefined ? {} : { plusMinus: display.number("flow", uncertainty_m3_s) }),
          })),
          groups: [],
        };
        return {
          title: capitalize(side),
          chart,
          alt: barAlt(`change in ${side} flow at each lift`, chart, averageChangeWords(pair)),
        };
      }),
      caption: [
        `${last.name} against ${first.name.toLowerCase()}.`,
        ...(panels.some(({ changes }) => changes.some(({ verdict }) => !isClear(verdict)))
          ? ["Hollow bars: no change is claimed."]
          : []),
        ...differenceWords(panels.map(({ pair }) => pair)),
      ].join(" "),
    },
  ]);
};
