import type { Port, RoundedRectangle } from "../../../model/model.ts";
import type { TableCell } from "../../content.ts";
import { type BlockBuilder, type Context, endStages } from "../../context.ts";
import { formatShortest, sharedDecimals } from "../../display.ts";
import { presentItems, section } from "../../section.ts";
import { capitalize } from "../../words/text.ts";
import { unitWord } from "./valves.ts";

type Row = { readonly label: string; readonly strong?: true; readonly value: (port: Port) => string | undefined };

/** Seats and valves as cut, a row a cut in the order of the air; port window above gasket window, so that a step shows. */
export const valveCuts: BlockBuilder = (context, place) => {
  const ports = endStages(context).last?.stage.ports ?? {};
  const sides = context.sides.filter((side) => ports[side]);
  const rows = rowsOf(context, Object.values(ports)).filter(({ value }) => sides.some((side) => value(ports[side]!)));
  if (rows.length === 0) return [];
  const cell = (text: string | undefined, strong?: true): TableCell => ({
    text: text ?? "–",
    ...(strong ? { strong } : {}),
  });
  return section(place, `Valve job, ${unitWord(context)}`, [
    {
      kind: "table",
      columns: [
        { title: "Cut or size", align: "left" },
        ...sides.map((side) => ({ title: capitalize(side), align: "right" as const })),
      ],
      rows: rows.map(({ label, strong, value }) => [
        { text: label },
        ...sides.map((side) => cell(value(ports[side]!), strong)),
      ]),
      rowHeads: true,
      fifths: false,
      notes: [],
    },
  ]);
};

function rowsOf({ display, withheld }: Context, ports: readonly Port[]): readonly Row[] {
  const digits = (value: number) =>
    display.digits("length", value, sharedDecimals(display, "length", [display.number("length", value)]));
  const angle = (value: number) => display.full("angle", value, 0);
  const cut = (one: { readonly angle: number; readonly width?: number } | undefined) =>
    one && `${angle(one.angle)}${one.width === undefined ? "" : ` × ${digits(one.width)}`}`;
  const window = (one: RoundedRectangle | undefined) => one && `${digits(one.width)} × ${digits(one.height)}`;
  const corner = (one: RoundedRectangle | undefined) => (one && one.corner > 0 ? digits(one.corner) : "–");
  const pair = (...values: (string | undefined)[]) => presentItems<string>(values).join("; ") || undefined;
  const bottoms = Math.max(0, ...ports.map(({ seat }) => seat?.bottom.length ?? 0));
  const angles = [...new Set(ports.flatMap(({ seat }) => (seat ? angle(seat.angle) : [])))];
  const cuts: readonly Row[] = [
    { label: "Top cut", value: ({ seat }) => cut(seat?.top) },
    {
      label: angles.length === 1 ? `Seat at ${angles[0]}` : "Seat",
      strong: true,
      value: ({ seat }) =>
        angles.length === 1
          ? seat?.width !== undefined
            ? digits(seat.width)
            : undefined
          : cut(seat && { angle: seat.angle, ...(seat.width === undefined ? {} : { width: seat.width }) }),
    },
    ...Array.from(
      { length: bottoms },
      (_, i): Row => ({
        label: bottoms > 1 ? `Bottom cut ${i + 1}` : "Bottom cut",
        value: ({ seat }) => cut(seat?.bottom[i]),
      }),
    ),
    {
      label: "Throat under it",
      value: ({ seat }) =>
        seat?.throatRadius &&
        pair(`radius${seat.throatRadius.radius === undefined ? "" : ` ${digits(seat.throatRadius.radius)}`}`),
    },
  ];
  return [
    ...(withheld.seat ? [] : cuts),
    {
      label: withheld.seat || ports.every(({ seat }) => seat?.outside === undefined) ? "Valve" : "Seat outside; valve",
      value: ({ seat, valves }) =>
        pair(
          withheld.seat || seat?.outside === undefined ? undefined : digits(seat.outside),
          ...new Set(valves.map(({ head }) => digits(head))),
        ),
    },
    {
      label: withheld.seat ? "Margin" : "Margin; back cut",
      value: ({ valves: [valve] }) =>
        pair(
          valve?.margin === undefined ? undefined : digits(valve.margin),
          withheld.seat || !valve?.backCut ? undefined : cut(valve.backCut),
        ),
    },
    { label: "Port window", value: ({ opening }) => window(opening) },
    { label: "Gasket window", value: ({ gasketWindow }) => window(gasketWindow) },
    {
      label: "Corners, port; gasket",
      value: ({ opening, gasketWindow }) => gasketWindow && pair(corner(opening), corner(gasketWindow)),
    },
  ];
}

/** A length in the fewest digits that keep it, with its unit. */
export const lengthWords = (context: Context, value: number | undefined): string | undefined =>
  value === undefined ? undefined : formatShortest(context.display, "length", value);
