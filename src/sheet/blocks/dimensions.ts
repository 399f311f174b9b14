import type { Port, Side } from "../../model/model.ts";
import { type BlockBuilder, type Context, isFoundOnly } from "../context.ts";
import { paragraph, presentItems, section } from "../section.ts";
import { type SizeRow, sideStageTable, stageTable } from "../stage-columns.ts";
import { capitalize } from "../words/text.ts";
import { cutRows } from "./cut-rows.ts";

/** Sizes and cuts of one side, before and after. */
const sizesOf =
  (side: Side): BlockBuilder =>
  (context, place) =>
    context.stages.length < 2 || !context.sides.includes(side)
      ? []
      : section(place, `${capitalize(side)} sizes`, [
          ...sideStageTable(context, side, [...sizeRows(context), ...cutRows(context)]),
          ...paragraph(context.withheld.pinch ? undefined : pinchWords({ ...context, sides: [side] }), "caption"),
        ]);
export const intakeSizes = sizesOf("intake");
export const exhaustSizes = sizesOf("exhaust");

/** Whether a sheet shows the sizes of two stages side by side of the ports. */
export const hasSizesBySide = ({ blocks, stages }: Context): boolean =>
  stages.length > 1 && blocks.includes("intake-sizes") && blocks.includes("exhaust-sizes");

/** Sizes of the ports, before and after; nothing where each side has a table of its own, or the first page holds them. */
export const dimensions: BlockBuilder = (context, place) =>
  hasSizesBySide(context) || (isFoundOnly(context) && context.blocks.includes("found-sizes"))
    ? []
    : sizes(context, place);

/** Sizes of a head that was measured once. */
export const foundSizes: BlockBuilder = (context, place) => (isFoundOnly(context) ? sizes(context, place) : []);

const sizes: BlockBuilder = (context, place) =>
  section(place, "Sizes", [
    ...stageTable(context, sizeRows(context)),
    ...paragraph(context.withheld.pinch ? undefined : pinchWords(context), "caption"),
  ]);

/** Where the smallest section is, in the porter's words: too long for a column of numbers. */
function pinchWords({ model, sides }: Context): string | undefined {
  const places = sides.flatMap((side) => {
    const pinch = model.stages.findLast(({ ports }) => ports[side]?.pinch)?.ports[side]?.pinch;
    const words = presentItems<string>([pinch?.where, pinch && pinch.count > 1 && `${pinch.count} alike`]).join(", ");
    return words === "" ? [] : [`${side} ${words}`];
  });
  return places.length === 0 ? undefined : `Pinch: ${places.join("; ")}.`;
}

/** What may be printed of the ports' sizes. */
function sizeRows({ display, withheld, model, sides }: Context): readonly SizeRow[] {
  const length = display.unit("length");
  const area = display.unit("area");
  const several = model.stages.some(({ ports }) => sides.some((side) => (ports[side]?.valves.length ?? 0) > 1));
  const shared = (pick: (port: Port) => number) =>
    model.stages.some(({ ports }) => sides.some((side) => (ports[side] ? pick(ports[side]) : 1) > 1));
  return presentItems<SizeRow>([
    several && {
      label: "Valves in this port",
      key: "valve",
      kind: "text",
      value: ({ valves }) => String(valves.length),
    },
    shared(({ ports }) => ports) && {
      label: "Ports for one cylinder",
      kind: "text",
      value: ({ ports }) => String(ports),
    },
    shared(({ feeds }) => feeds) && {
      label: "Cylinders fed by this port",
      kind: "text",
      value: ({ feeds }) => String(feeds),
    },
    { label: `${several ? "Valves, each" : "Valve"} (${length})`, key: "valve", kind: "length", value: headDiameters },
    { label: `Throat (${length})`, key: "throat", kind: "length", value: ({ throat }) => throat },
    {
      label: "Throat ÷ valve (%) †",
      key: "throat",
      derived: true,
      kind: "percent",
      value: (_, stage, side) => stage.figures[side]?.throat_ratio,
    },
    !withheld.pinch && { label: `Pinch (${area})`, key: "pinch", kind: "area", value: ({ pinch }) => pinch?.area },
    !withheld.pinch && {
      label: "Pinch ÷ valve area (%) †",
      key: "pinch",
      derived: true,
      kind: "percent",
      value: (_, stage, side) => stage.figures[side]?.pinch_to_valve_area,
    },
    !withheld.portVolume && {
      label: `Port volume (${display.unit("volume")})`,
      key: "port_volume",
      kind: "volume",
      value: (_, stage, side) => stage.figures[side]?.port_volume_m3,
    },
    { label: `Port length (${length})`, key: "port_length", kind: "length", value: ({ portLength }) => portLength },
    !withheld.portVolume && {
      label: `Mean port area (${area}) †`,
      key: "port_volume",
      derived: true,
      kind: "area",
      value: (_, stage, side) => stage.figures[side]?.mean_port_area_m2,
    },
    { label: "Material added", kind: "text", value: ({ added }) => added },
  ]);
}

/** One number for a valve or for several alike, all of them where they are unlike. */
function headDiameters({ valves }: Port): readonly number[] {
  const sizes = valves.map(({ head }) => head);
  return new Set(sizes).size === 1 ? sizes.slice(0, 1) : sizes;
}
