import type { SetSideFigures, SideFigures } from "../../../figures/figures.ts";
import type { Port, Side } from "../../../model/model.ts";
import type { Part, TableCell } from "../../content.ts";
import type { BlockBuilder, Context } from "../../context.ts";
import { formatPercentDigits, formatShortest, formatSignedPercentDigits } from "../../display.ts";
import { EMPTY_CELL } from "../../flow-columns.ts";
import { presentItems, section } from "../../section.ts";
import { type SideHead, sideHeads } from "../../side-by-side/heads.ts";
import { formatRpm } from "../../speed-panel.ts";
import { capitalize, joinWords } from "../../words/text.ts";

type Row = { readonly label: string; readonly text: (head: SideHead, side: Side) => string | undefined };

/** Most heads whose two sides stand in one table. */
const IN_ONE = 2;

/** Sizes and the shape of the curve, a column a head; what its own job holds back is left out. */
export const sideSizes: BlockBuilder = (context, place) => {
  const heads = sideHeads(context);
  const sides = context.sides.filter((side) => heads.some(({ figures }) => figures[side]));
  if (heads.length < 2 || sides.length === 0) return [];
  const groups = heads.length > IN_ONE ? sides.map((side) => [side]) : [sides];
  const tables = groups.map((own, i) => sizesTable(context, heads, own, i === groups.length - 1));
  return section(place, undefined, tables);
};

function sizesTable(context: Context, heads: readonly SideHead[], sides: readonly Side[], last: boolean): Part {
  const cells = sides.flatMap((side) => heads.map((head) => ({ side, head })));
  const rows = rowsOf(context).flatMap(({ label, text }): TableCell[][] => {
    const texts = cells.map(({ head, side }) => text(head, side));
    return texts.some((one) => one !== undefined)
      ? [[{ text: label }, ...texts.map((one) => (one === undefined ? EMPTY_CELL : { text: one }))]]
      : [];
  });
  return {
    kind: "table",
    columns: [
      { title: "Sizes, shape of the curve", align: "left" },
      ...cells.map(({ side, head }) => ({
        title: head.letter === "A" ? `${capitalize(side)} A` : head.letter,
        align: "right" as const,
      })),
    ],
    rows,
    rowHeads: true,
    fifths: false,
    notes: last ? [engineWords(context, heads)] : [],
  };
}

function rowsOf({ display }: Context): readonly Row[] {
  const unit = display.unit("length");
  const short = (value: number | undefined) =>
    value === undefined ? undefined : formatShortest(display, "length", value).replace(`\u00a0${unit}`, "");
  const known = (port: Port | undefined, name: string) =>
    port !== undefined && !port.notRemeasured.includes(name as never);
  const figuresOf = (head: SideHead, side: Side): SideFigures | SetSideFigures | undefined => head.figures[side];
  return [
    {
      label: `Valve; throat, ${unit}`,
      text: ({ stage }, side) => {
        const port = stage.ports[side];
        const valves = [...new Set(port?.valves.map(({ head }) => short(head)))].join(", ");
        return presentItems<string>([valves, known(port, "throat") && short(port?.throat)]).join("; ") || undefined;
      },
    },
    {
      label: `Pinch, ${display.unit("area")}`,
      text: ({ stage, withheld }, side) => {
        const port = stage.ports[side];
        return withheld.pinch || !known(port, "pinch") || !port?.pinch
          ? undefined
          : display.digits("area", port.pinch.area);
      },
    },
    {
      label: `Port volume, ${display.unit("volume")}`,
      text: ({ stage, withheld }, side) => {
        const port = stage.ports[side];
        const all = (port?.portVolumes ?? []).map(({ volume }) => volume);
        const mean = all.length > 0 ? all.reduce((sum, one) => sum + one, 0) / all.length : undefined;
        const volume = known(port, "port_volume") ? (port?.portVolume ?? mean) : undefined;
        return withheld.portVolume || volume === undefined ? undefined : display.digits("volume", volume);
      },
    },
    {
      label: `Peak flow, ${display.unit("flow")}`,
      text: (head, side) => {
        const peak = figuresOf(head, side)?.peak;
        return peak && `${display.digits("flow", peak.flow_m3_s)} at ${display.digits("lift", peak.lift_m)}`;
      },
    },
    { label: "Past the peak", text: (head, side) => pastPeak(head.figures[side]) },
    {
      label: "Peak ÷ ideal of the pinch, % †",
      text: (head, side) => {
        const share = (figuresOf(head, side) as SideFigures | undefined)?.pinch_share_of_ideal;
        return head.withheld.pinch || share === undefined ? undefined : formatPercentDigits(share, 0);
      },
    },
    {
      label: "Mean inlet Mach number 0.40 at, rpm †",
      text: ({ engine }, side) =>
        side !== "intake" || engine?.mean_inlet_mach_rpm === undefined
          ? undefined
          : formatRpm(engine.mean_inlet_mach_rpm),
    },
  ];
}

/** What the curve does after its peak: falls only where that is clear. */
function pastPeak(figures: SideFigures | SetSideFigures | undefined): string | undefined {
  const past = (figures as SideFigures | undefined)?.after_peak;
  if (!past) return undefined;
  if (past.change === 0 && past.uncertainty === undefined) return "not reached";
  if (past.verdict === "within repeatability") return "holds";
  if (past.verdict === undefined || past.uncertainty === undefined) return undefined;
  return past.verdict === "too few repeats"
    ? undefined
    : `falls, ${formatSignedPercentDigits(past.change)} % ±\u00a0${formatPercentDigits(past.uncertainty)}`;
}

function engineWords({ display, model: { engine } }: Context, heads: readonly SideHead[]): string {
  const chambers = heads.flatMap(({ letter, stage }) => {
    const all = stage.chambers.map(({ volume }) => volume);
    const mean = all.reduce((sum, one) => sum + one, 0) / all.length;
    return all.length === 0 || stage.chambersNotRemeasured ? [] : [`${letter} ${display.full("volume", mean)}`];
  });
  const cam = (["intake", "exhaust"] as const).flatMap((side) => {
    const own = engine?.cams[side];
    return own?.netLift === undefined
      ? []
      : [
          `${side} cam ${display.full("lift", own.netLift)}${own.duration === undefined ? "" : `, ${display.full("angle", own.duration, 0)}`}`,
        ];
  });
  return presentItems<string>([
    "† Calculated.",
    chambers.length > 0 && `Chamber, mean: ${joinWords(chambers)}.`,
    engine?.bore !== undefined &&
      engine.stroke !== undefined &&
      `Engine ${formatShortest(display, "length", engine.bore)} × ${formatShortest(display, "length", engine.stroke)}, as stated.`,
    cam.length > 0 && `${capitalize(joinWords(cam))}, as stated.`,
  ]).join(" ");
}
