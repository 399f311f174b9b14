import type { PortToPort } from "../../figures/figures.ts";
import type { Side } from "../../model/model.ts";
import type { Table, TableCell } from "../content.ts";
import { type BlockBuilder, type Context, endStages, flowedFigures } from "../context.ts";
import { EMPTY_CELL } from "../flow-columns.ts";
import { findAtLift, unionOfLifts } from "../lifts.ts";
import { joinNotes, section } from "../section.ts";
import { portName } from "../words/port-to-port.ts";
import { capitalize } from "../words/text.ts";
import { captionWords, type PortPanel, portStrips } from "./port-dots.ts";

/** Columns of ports that fit beside the lift. */
const MOST_PORTS = 8;

/** Port to port: what each cylinder flowed at each lift, where more than one was measured. */
export const cylinders: BlockBuilder = (context, place) => {
  const lists = portLists(context);
  const dots = portStrips(context, place, lists.find(({ title }) => title === undefined)?.panels ?? [], false);
  // A page with dots has its heading, and what stands under them, already.
  const isBelowDots = dots.length > 0 && context.blocks.includes("port-dots");
  const tables = lists.flatMap((list) =>
    portTables(context, isBelowDots && list.title === undefined ? { panels: list.panels.map(withoutNotes) } : list),
  );
  return isBelowDots ? section(place, undefined, tables) : section(place, "Port to port", [...dots, ...tables]);
};

const withoutNotes = (panel: PortPanel): TablePanel =>
  panel.ports.spread_ratio === undefined ? panel : { ...panel, isContinued: true };

type PortList = { readonly title?: string; readonly panels: readonly TablePanel[] };

/** The delivered stage; of other stages and sets those that hold a reading which no row of means stands for. */
function portLists(context: Context): readonly PortList[] {
  const { last } = endStages(context);
  const panelsOf = (figures: (side: Side) => PortPanel["figures"] | undefined) =>
    context.sides.flatMap((side): PortPanel[] => {
      const found = figures(side);
      return found?.port_to_port ? [{ side, figures: found, ports: found.port_to_port }] : [];
    });
  const all = context.stages.flatMap((stage): PortList[] => [
    { ...(stage === last ? {} : { title: stage.name }), panels: panelsOf((side) => flowedFigures(stage, side)) },
    ...stage.figures.sets.map((set) => ({
      title: `${stage.name}, ${set.name}`,
      panels: panelsOf((side) => set[side]),
    })),
  ]);
  return all
    .map(({ title, panels }) =>
      title === undefined ? { panels } : { title, panels: panels.filter(({ figures }) => isOnlyHere(figures)) },
    )
    .filter(({ panels }) => panels.length > 0)
    .sort((a, b) => Number(a.title !== undefined) - Number(b.title !== undefined));
}

/** Whether a port has a reading that enters no mean, so that it is printed nowhere else. */
function isOnlyHere({ port_to_port: ports, readings, hand }: PortPanel["figures"]): boolean {
  return (ports?.cylinders ?? []).some(
    (port) =>
      port.hand !== hand ||
      !port.full ||
      port.readings.some(({ lift_m, doubtful }) => findAtLift(readings, lift_m)?.doubtful !== doubtful),
  );
}

/** One table of all sides where its columns fit, else one for each side and eight ports. */
function portTables(context: Context, { title, panels }: PortList): readonly Table[] {
  const columns = panels.reduce((sum, { ports }) => sum + ports.cylinders.length, 0);
  if (columns <= MOST_PORTS) return [portTable(context, title, panels)];
  return panels.flatMap((panel) =>
    chunks(panel.ports.cylinders, MOST_PORTS).map((some, k, all) =>
      portTable(context, title, [{ ...panel, shown: some, ...(k < all.length - 1 ? { isContinued: true } : {}) }]),
    ),
  );
}

/** A panel, or some of its ports; the notes stand under the last of them, or under its dots. */
type TablePanel = PortPanel & { readonly shown?: PortToPort["cylinders"]; readonly isContinued?: true };

function portTable(context: Context, title: string | undefined, panels: readonly TablePanel[]): Table {
  const { display } = context;
  const columns = panels.map(({ ports, shown = ports.cylinders }) => shown);
  const lifts = unionOfLifts(columns.flat().map(({ readings }) => readings));
  const means = columns.flat().some(({ mean_m3_s }) => mean_m3_s !== undefined);
  return {
    kind: "table",
    title: title === undefined ? "Flow of each cylinder" : `Flow of each cylinder, ${title}`,
    columns: [
      { title: `Lift (${display.unit("lift")})`, align: "decimal" },
      ...columns.flat().map((port) => ({ title: portName(port), align: "decimal" }) as const),
    ],
    groups: [
      { text: "", span: 1 },
      ...panels.map(({ side }, k) => ({
        text: `${capitalize(side)}, cylinder (${display.unit("flow")})`,
        span: columns[k]!.length,
      })),
    ],
    rows: [
      ...lifts.map((lift): TableCell[] => [
        { text: display.digits("lift", lift) },
        ...columns.flat().map((port) => portCell(context, port, lift)),
      ]),
      ...(means
        ? [
            [
              { text: "Mean" },
              ...columns
                .flat()
                .map(({ mean_m3_s: mean }) =>
                  mean === undefined ? EMPTY_CELL : { text: display.digits("flow", mean), strong: true },
                ),
            ],
          ]
        : []),
    ],
    rowHeads: true,
    fifths: false,
    notes: joinNotes(panels.flatMap((panel) => (panel.isContinued ? [] : captionWords(context, panel)))),
  };
}

function portCell({ display }: Context, { readings }: PortToPort["cylinders"][number], lift: number): TableCell {
  const found = findAtLift(readings, lift);
  if (!found) return EMPTY_CELL;
  const text = `${display.digits("flow", found.flow_m3_s)}${found.doubtful ? "?" : ""}${found.noisy ? "!" : ""}`;
  return { text, ...(found.doubtful ? { quiet: true } : {}) };
}

const chunks = <T>(all: readonly T[], size: number): readonly (readonly T[])[] =>
  Array.from({ length: Math.ceil(all.length / size) }, (_, k) => all.slice(k * size, (k + 1) * size));
