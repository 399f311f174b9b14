import type { Cut, Port, Seat } from "../../model/model.ts";
import type { Context } from "../context.ts";
import { presentItems } from "../section.ts";
import type { SizeRow } from "../stage-columns.ts";

/** What may be printed of seats and valves as cut. */
export function cutRows({ display, withheld }: Context): readonly SizeRow[] {
  const length = display.unit("length");
  const angle = (value: number | undefined) => (value === undefined ? undefined : display.full("angle", value, 0));
  const cut = (one: Cut) =>
    `${angle(one.angle)}${one.width === undefined ? "" : ` × ${display.digits("length", one.width)}`}`;
  const bottomCuts = ({ bottom, throatRadius: round }: Seat) => [
    ...bottom.map(cut),
    ...(round
      ? [
          presentItems<string>(["radius", round.radius !== undefined && display.digits("length", round.radius)]).join(
            " ",
          ),
        ]
      : []),
  ];
  const valve = (port: Port) => port.valves[0];
  const seatRows: readonly SizeRow[] = [
    { label: "Seat angle", key: "seat", kind: "text", value: ({ seat }) => angle(seat?.angle) },
    { label: `Seat face width (${length})`, key: "seat", kind: "length", value: ({ seat }) => seat?.width },
    { label: "Top cut", key: "seat", kind: "text", value: ({ seat }) => (seat?.top ? cut(seat.top) : undefined) },
    {
      label: "Bottom cuts",
      key: "seat",
      kind: "text",
      value: ({ seat }) => (seat && bottomCuts(seat).length > 0 ? bottomCuts(seat).join(", ") : undefined),
    },
    { label: `Seat outside (${length})`, key: "seat", kind: "length", value: ({ seat }) => seat?.outside },
    { label: "Seat form", key: "seat", kind: "text", value: ({ seat }) => seat?.form },
    {
      label: "Valve back cut",
      key: "valve",
      kind: "text",
      value: (port) => {
        const cut = valve(port)?.backCut;
        if (!cut) return undefined;
        return presentItems<string>([
          angle(cut.angle),
          cut.width !== undefined && display.full("length", cut.width),
        ]).join(", ");
      },
    },
  ];
  return [
    ...(withheld.seat ? [] : seatRows),
    { label: `Valve margin (${length})`, key: "valve", kind: "length", value: (port) => valve(port)?.margin },
    { label: `Valve stem (${length})`, key: "valve", kind: "length", value: (port) => valve(port)?.stem },
    { label: "Valve material", key: "valve", kind: "text", value: (port) => valve(port)?.material },
  ];
}
