import { MACH_INDEX_LIMIT, PINCH_BAND } from "../../../model/constants.ts";
import type { RoundedRectangle } from "../../../model/model.ts";
import type { DrawnLabel, FlowPanel } from "../../content.ts";
import type { BlockBuilder } from "../../context.ts";
import { formatPercentDigits } from "../../display.ts";
import { roundedRectangle, scaleBar, tooLargeWords } from "../../drawing/true-size.ts";
import { presentItems, section } from "../../section.ts";
import { type SideHead, sideHeads } from "../../side-by-side/heads.ts";
import { meetingSpeedWords, type SpeedLine, speedPanel, THIRD } from "../../speed-panel.ts";
import { panelAlt } from "../../words/chart-alt.ts";
import { PINCH_SPEED_CAUTION } from "../../words/engine.ts";
import { joinWords } from "../../words/text.ts";
import { LABELS } from "../flow-panels.ts";
import { bandAcross } from "../pinch-speed.ts";

/** Heights of the plots [pt]. */
const PLOT = { least: 72, most: 100 } as const;
/** A larger outline does not stand in a third of the page [m]. */
const LARGEST = { width: 0.0529, height: 0.0494 } as const;

/** Intake pinches on one centre at true size: of two heads, the first and the one that flows most. */
export const sidePinch: BlockBuilder = (context, place) => {
  const drawn = outlinesShown(sideHeads(context));
  if (drawn.length < 2) return [];
  const labels = drawn.map(
    ({ head, shape, area }, i): DrawnLabel => ({
      lines: presentItems<string>([
        `${head.letter} ${context.display.full("area", area)}`,
        i > 0 && moreThan(area, drawn[0]!.area),
      ]),
      at: [shape.width * 500, (i === 0 ? 0.18 : -0.18) * shape.height * 1000],
      color: head.style.label,
    }),
  );
  const figure = {
    title: "",
    drawing: {
      shapes: drawn.map(({ head: { style }, shape }) => ({
        steps: roundedRectangle(shape.width * 1000, shape.height * 1000, shape.corner * 1000),
        stroke: { color: style.color, width: style.width, dash: style.dash },
      })),
      labels,
      scaleBar: scaleBar(context.display),
    },
    alt: `Drawing at true size: outlines of the intake pinches. ${labels.map(({ lines }) => `${lines.join(", ")}.`).join(" ")}`,
    fallback: tooLargeWords("Intake pinch"),
  };
  return section(place, "Intake pinch, true size", [
    { kind: "true-size", figures: [figure], caption: "On one centre, from width, height and corner. † Calculated." },
  ]);
};

type Drawn = { readonly head: SideHead; readonly shape: RoundedRectangle; readonly area: number };

function outlinesShown(heads: readonly SideHead[]): readonly Drawn[] {
  const [first, ...others] = heads;
  const highest = ({ figures }: SideHead) =>
    Math.max(0, ...(figures.intake?.readings ?? []).map(({ flow_m3_s: q }) => q));
  const other = others.toSorted((a, b) => highest(b) - highest(a))[0];
  return [first, other].flatMap((head): Drawn[] => {
    const port = head?.stage.ports.intake;
    const shape = port?.pinch?.shape;
    if (!head || !port?.pinch || !shape || head.withheld.pinch || port.notRemeasured.includes("pinch")) return [];
    if (shape.width > LARGEST.width || shape.height > LARGEST.height) return [];
    return [{ head, shape, area: port.pinch.area }];
  });
}

function moreThan(area: number, other: number): string {
  const share = area / other - 1;
  if (Math.abs(share) < 0.005) return "as large †";
  return `${formatPercentDigits(Math.abs(share), 0)}\u00a0% ${share > 0 ? "more" : "less"} †`;
}

/** Gas speed at the pinch of each head against engine speed, with the band of common practice. */
export const sideSpeed: BlockBuilder = (context, place) => {
  const { display, figures } = context;
  const lines = sideHeads(context).flatMap((head) =>
    head.withheld.pinch
      ? []
      : speedLine(
          head,
          (head.engine?.pinch_velocity ?? []).map(
            ({ rpm, velocity_m_s: speed }) => [rpm, display.number("speed", speed)] as const,
          ),
          head.engine?.pinch_band_rpm ? [head.engine.pinch_band_rpm.low] : [],
        ),
  );
  const speedAt = (share: number) => display.number("speed", share * figures.reference.air.sound_speed_m_s);
  const [low, high] = [speedAt(PINCH_BAND.low), speedAt(PINCH_BAND.high)];
  const panel = lines.length < 2 ? undefined : speedPanel(lines, display.unit("speed"), high, THIRD);
  if (!panel) return [];
  const met = meetingSpeedWords(lines);
  const words = `Grey: common practice${met ? `, from ${met}` : ""}. ${PINCH_SPEED_CAUTION}`;
  return engineChart(place, "Gas speed at the pinch †", { ...panel, zone: bandAcross(panel, low, high) }, words);
};

/** Inlet Mach index of each head against engine speed. */
export const sideAir: BlockBuilder = (context, place) => {
  const lines = sideHeads(context).flatMap((head) =>
    speedLine(
      head,
      (head.engine?.inlet_mach_index ?? []).map(({ rpm, z }) => [rpm, z] as const),
      head.engine?.z_limit_rpm === undefined ? [] : [head.engine.z_limit_rpm],
    ),
  );
  const panel = lines.length < 2 ? undefined : speedPanel(lines, "", MACH_INDEX_LIMIT, THIRD);
  if (!panel) return [];
  const met = meetingSpeedWords(lines);
  const fromLift = sideHeads(context).some(({ engine }) => engine?.inlet_mach_index_from_lift_only);
  const words = presentItems<string>([
    `Inlet Mach index${fromLift ? ", from lift only" : ""}.`,
    `Dotted: ${MACH_INDEX_LIMIT}${met ? `, met at ${met}` : ""}.`,
  ]).join(" ");
  return engineChart(place, "Air demand of the intake †", { ...panel, levels: [MACH_INDEX_LIMIT] }, words);
};

const speedLine = (
  { letter, style }: SideHead,
  values: SpeedLine["values"],
  met: readonly number[],
): readonly SpeedLine[] => (values.length < 2 ? [] : [{ name: letter, said: letter, style, values, met }]);

function engineChart(
  place: Parameters<BlockBuilder>[1],
  title: string,
  chart: FlowPanel,
  caption: string,
): ReturnType<BlockBuilder> {
  const alt = panelAlt(
    `${title.replace(/ †$/, "").toLowerCase()} of ${joinWords(chart.series.map(({ name }) => name))} against engine speed`,
    chart,
    caption,
  );
  return section(place, title, [
    {
      kind: "charts",
      charts: [{ title: "", chart, alt }],
      height: PLOT.least + LABELS,
      grow: [PLOT.least + LABELS, PLOT.most + LABELS],
      caption,
    },
  ]);
}
