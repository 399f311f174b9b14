import type { Drawing, DrawingItem, PathCommand } from "../../charts/drawing.ts";
import type { HeadPlan, PlanValve } from "../../sheet/content.ts";
import type { FlowBox } from "../flow-box.ts";
import {
  type PlacedPlanValve,
  type PlanGeometry,
  type PlanInput,
  placePlan,
  planHeights,
} from "../head-plan/plan-geometry.ts";
import type { PlacedItem, Tag } from "../page.ts";
import { textAt } from "../set-text.ts";
import type { PartContext } from "../setting.ts";
import { space, type Type } from "../type-sizes.ts";
import { boxAround } from "./box-around.ts";

/** Left of the plan, for the names of the values; the words of ends and sides over and under it [pt]. */
const NAMES = 56.2;
const OUTSIDE = 12;
/** White between a value and its box [pt]. */
const IN_BOX = 3;
const CORNER = 6;

const large: Type = { size: 11, lead: 16, weight: "regular" };
const circleName: Type = { size: 15, lead: 18, weight: "semibold" };

type PlanContext = Pick<PartContext, "measure" | "types" | "width">;

function planInput(part: HeadPlan, { measure, types, width }: PlanContext): PlanInput {
  const all = part.cylinders.flatMap(({ intake, exhaust }) => [...intake, ...exhaust]).flatMap(({ values }) => values);
  const widest = (size: number) =>
    Math.max(...all.map(({ text, strong }) => measure.width(text, strong ? "semibold" : "regular", size))) + 2 * IN_BOX;
  return {
    cylinders: part.cylinders.map(({ intake, exhaust }) => ({ intake: intake.length, exhaust: exhaust.length })),
    values: part.names.length,
    widest: { large: widest(large.size), small: widest(types.table.size) },
    width: width - NAMES,
  };
}

/** By how much a plan may grow [pt]. */
export function planGrowth(part: HeadPlan, ctx: PlanContext): number {
  const [least, most] = planHeights(planInput(part, ctx));
  return most - least;
}

/** The head from above: a column a cylinder, intakes over exhausts, each valve with its values. */
export function headPlan(part: HeadPlan, ctx: PartContext): readonly FlowBox[] {
  const input = planInput(part, ctx);
  const [least, most] = planHeights(input);
  const geometry = placePlan(input, Math.min(most, least + (ctx.extra?.plot ?? 0)));
  const places = rowOrder(part, geometry);
  const items = [
    drawingAt(NAMES, OUTSIDE, planDrawing(geometry, ctx), ctx),
    ...valueNames(part, geometry, ctx),
    ...outsideWords(part, geometry, ctx),
    ...places.flatMap(({ valve, place }, row) => valveItems(valve, place, row + 1, geometry, ctx)),
  ];
  return [{ height: geometry.height + 2 * OUTSIDE, items, gap: space.part, tie: false }];
}

/** The valves in the order of their rows: cylinder by cylinder, intakes first. */
function rowOrder(part: HeadPlan, { valves }: PlanGeometry) {
  return part.cylinders.flatMap((cylinder, i) =>
    (["intake", "exhaust"] as const).flatMap((side) =>
      cylinder[side].map((valve, index) => ({
        valve,
        place: valves.find((one) => one.cylinder === i && one.side === side && one.index === index)!,
      })),
    ),
  );
}

function valveItems(
  valve: PlanValve,
  place: PlacedPlanValve,
  row: number,
  geometry: PlanGeometry,
  ctx: PartContext,
): readonly PlacedItem[] {
  const head = { kind: "cell", table: ctx.id, row, column: 0, header: "row" } as const;
  const [x, y] = [NAMES + place.cx, OUTSIDE + place.cy];
  const { caption, table } = ctx.types;
  const name = place.labelled
    ? [
        centred(valve.label, x, y - 15, circleName, ctx.colors.ink, head, ctx),
        centred(valve.side, x, y + 1, caption, ctx.colors.ink, head, ctx),
      ]
    : [
        centred(
          `${valve.label} ${valve.side}`,
          x,
          OUTSIDE + place.labelTop,
          { ...table, weight: "semibold" },
          ctx.colors.ink,
          head,
          ctx,
        ),
      ];
  const big = geometry.beside && geometry.lead === large.lead;
  const values = valve.values.flatMap(({ text, strong, boxed }, column): readonly PlacedItem[] => {
    const type: Type = { ...(big ? large : table), lead: geometry.lead, weight: strong ? "semibold" : "regular" };
    const width = ctx.measure.width(text, type.weight, type.size);
    const left = NAMES + place.valuesX - (geometry.beside ? width + IN_BOX : width / 2);
    const top = OUTSIDE + place.valuesTop + column * geometry.lead;
    const tag = { kind: "cell", table: ctx.id, row, column: column + 1 } as const;
    return [
      textAt(text, left, top, type, { color: ctx.colors.ink, tag }, ctx),
      ...(boxed
        ? [
            boxAround(
              { x: left - IN_BOX, y: top + 0.6, width: width + 2 * IN_BOX, height: geometry.lead - 1.2 },
              { ...tag, says: boxed },
              ctx,
            ),
          ]
        : []),
    ];
  });
  return [...name, ...values];
}

function centred(
  text: string,
  x: number,
  y: number,
  type: Type,
  color: string,
  tag: Tag,
  ctx: PartContext,
): PlacedItem {
  return textAt(text, x - ctx.measure.width(text, type.weight, type.size) / 2, y, type, { color, tag }, ctx);
}

/** The names of the values at the left of each row; those of the first row head the table. */
function valueNames(part: HeadPlan, geometry: PlanGeometry, ctx: PartContext): readonly PlacedItem[] {
  const type = { ...ctx.types.caption, lead: geometry.lead };
  const tops = geometry.parts.flatMap(({ valuesTops }) => valuesTops);
  return tops.flatMap((top, row) =>
    part.names.map((name, i) => {
      const head = { kind: "cell", table: ctx.id, row: 0, column: i + 1, header: "column" } as const;
      const tag: Tag = row === 0 ? head : { kind: "artifact" };
      return textAt(name, 0, OUTSIDE + top + i * geometry.lead, type, { color: ctx.colors.quiet, tag }, ctx);
    }),
  );
}

const NOT_A_DRAWING = "a plan to find the valve, not a drawing of it";

/** Ends and sides, outside of the outline: said for the eye, since the table says them with each valve. */
function outsideWords({ from }: HeadPlan, geometry: PlanGeometry, ctx: PartContext): readonly PlacedItem[] {
  const ink = { color: ctx.colors.quiet, tag: { kind: "artifact" } } as const;
  const type = ctx.types.caption;
  const width = (text: string) => ctx.measure.width(text, type.weight, type.size);
  const right = (text: string) => ctx.width - width(text);
  const under = OUTSIDE + geometry.height + 1;
  const room = ctx.width - NAMES - width("intake side") - 12;
  return [
    ...(from && width(from) <= room ? [textAt(from, NAMES, 0, type, ink, ctx)] : []),
    textAt("intake side", right("intake side"), 0, type, ink, ctx),
    textAt("exhaust side", NAMES, under, type, ink, ctx),
    textAt(NOT_A_DRAWING, right(NOT_A_DRAWING), under, type, ink, ctx),
  ];
}

const drawingAt = (x: number, y: number, drawing: Drawing, ctx: PartContext): PlacedItem => ({
  kind: "drawing",
  x,
  y,
  drawing,
  around: true,
  tag: { kind: "artifact" },
  block: ctx.block,
});

/** Outlines, dividers and circles. */
function planDrawing(geometry: PlanGeometry, ctx: PartContext): Drawing {
  const { rule, grid, accent, ink, tint, paper } = ctx.colors;
  const line = (d: readonly PathCommand[], color: string, width: number): DrawingItem => ({
    kind: "path",
    role: "shape",
    d,
    stroke: { color, width },
  });
  const parts = geometry.parts.flatMap(({ top, width, height, middle, dividers }) => [
    ...dividers.map((x) =>
      line(
        [
          ["M", x, top],
          ["L", x, top + height],
        ],
        grid,
        0.5,
      ),
    ),
    ...(middle < height
      ? [
          line(
            [
              ["M", 0, top + middle],
              ["L", width, top + middle],
            ],
            grid,
            0.5,
          ),
        ]
      : []),
    line(roundedBox(top, width, height), rule, 0.75),
  ]);
  const circles = geometry.valves.map(({ cx, cy, r, side }): DrawingItem => {
    const intake = side === "intake";
    const stroke = { color: intake ? accent : ink, width: intake ? 1.75 : 1.25 };
    return { kind: "path", role: "shape", d: circlePath(cx, cy, r), fill: intake ? tint : paper, stroke };
  });
  const width = Math.max(...geometry.parts.map((part) => part.width));
  return { width, height: geometry.height, items: [...parts, ...circles] };
}

/** Control points of a quarter of a circle by a cubic, as a share of its radius. */
const QUARTER = (4 / 3) * (Math.SQRT2 - 1);

function circlePath(x: number, y: number, r: number): readonly PathCommand[] {
  const q = QUARTER * r;
  return [
    ["M", x + r, y],
    ["C", x + r, y + q, x + q, y + r, x, y + r],
    ["C", x - q, y + r, x - r, y + q, x - r, y],
    ["C", x - r, y - q, x - q, y - r, x, y - r],
    ["C", x + q, y - r, x + r, y - q, x + r, y],
    ["Z"],
  ];
}

function roundedBox(top: number, width: number, height: number): readonly PathCommand[] {
  const [c, q, foot] = [CORNER, CORNER * (1 - QUARTER), top + height];
  return [
    ["M", c, top],
    ["L", width - c, top],
    ["C", width - q, top, width, top + q, width, top + c],
    ["L", width, foot - c],
    ["C", width, foot - q, width - q, foot, width - c, foot],
    ["L", c, foot],
    ["C", q, foot, 0, foot - q, 0, foot - c],
    ["L", 0, top + c],
    ["C", 0, top + q, q, top, c, top],
    ["Z"],
  ];
}
