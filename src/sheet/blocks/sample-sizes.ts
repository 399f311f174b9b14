import type { Port, SampledHead, Side } from "../../model/model.ts";
import type { Part, TableCell } from "../content.ts";
import type { BlockBuilder, Context } from "../context.ts";
import { type DisplayKind, sharedDecimals } from "../display.ts";
import { EMPTY_CELL } from "../flow-columns.ts";
import { joinNotes, presentItems, section } from "../section.ts";
import { typicalWords } from "../words/identity.ts";
import { capitalize } from "../words/text.ts";

/** A size of a port over the heads measured; text only where all have the same. */
type SizeRow = { readonly label: string } & (
  | { readonly kind: DisplayKind | "percent"; readonly value: (port: Port) => number | undefined }
  | { readonly kind: "text"; readonly value: (port: Port) => string | undefined }
);

/** Sizes over the parts measured, the range where they differ; what all have alike of seats and springs. */
export const sampleSizes: BlockBuilder = (context, place) => {
  const { samples } = context.model;
  if (samples.length === 0) return [];
  // Beside the readings its heading stands in the head of the table, so that both begin alike.
  const beside = place.cell.span < 6 && context.blocks.includes("sample-numbers");
  const rows = sizeRows(context).flatMap((row) => {
    const cells = context.sides.map((side) => sizeCell(context, row, side, samples));
    return cells.some((cell) => cell !== EMPTY_CELL) ? [[{ text: row.label }, ...cells]] : [];
  });
  const marked = rows.some(([label]) => label?.text.includes("†"));
  const parts: readonly Part[] =
    rows.length === 0
      ? []
      : [
          {
            kind: "table",
            columns: [
              { title: beside ? sizesTitle(samples.length) : "Size", align: "left", weight: 2 },
              ...context.sides.map((side) => ({ title: capitalize(side), align: "right" }) as const),
            ],
            rows,
            rowHeads: true,
            fifths: false,
            notes: joinNotes([marked && "† Calculated.", sharedWords(context)]),
          },
        ];
  const title = beside ? undefined : `Sizes. ${typicalWords(samples.length)}`;
  return section(place, title, parts);
};

const sizesTitle = (n: number) => (n === 1 ? "Sizes of the head measured" : `Sizes of the ${n} heads`);

function sizeRows({ display, withheld, model }: Context): readonly SizeRow[] {
  const length = display.unit("length");
  const several = model.samples.some(({ stage }) =>
    [stage.ports.intake, stage.ports.exhaust].some((port) => (port?.valves.length ?? 0) > 1),
  );
  return presentItems<SizeRow>([
    several && { label: "Valves in this port", kind: "text", value: ({ valves }) => String(valves.length) },
    {
      label: `${several ? "Valves, each" : "Valve"} (${length})`,
      kind: "length",
      value: ({ valves }) => valves[0]?.head,
    },
    { label: `Stem (${length})`, kind: "length", value: ({ valves }) => valves[0]?.stem },
    { label: `Throat (${length})`, kind: "length", value: ({ throat }) => throat },
    {
      label: "Throat ÷ valve (%) †",
      kind: "percent",
      value: ({ throat, valves: [valve] }) => (throat && valve ? throat / valve.head : undefined),
    },
    !withheld.seat && { label: `Seat width (${length})`, kind: "length", value: ({ seat }) => seat?.width },
    !withheld.pinch && { label: `Pinch (${display.unit("area")})`, kind: "area", value: ({ pinch }) => pinch?.area },
    !withheld.portVolume && {
      label: `Port volume (${display.unit("volume")})`,
      kind: "volume",
      value: ({ portVolume, portVolumes }) => portVolume ?? mean(portVolumes.map(({ volume }) => volume)),
    },
    { label: `Port length (${length})`, kind: "length", value: ({ portLength }) => portLength },
  ]);
}

function sizeCell(context: Context, row: SizeRow, side: Side, samples: readonly SampledHead[]): TableCell {
  const ports = samples.flatMap(({ stage }) => stage.ports[side] ?? []);
  if (row.kind === "text") {
    const texts = new Set(ports.map(row.value));
    const [only] = texts;
    return texts.size === 1 && only !== undefined ? { text: only } : EMPTY_CELL;
  }
  const values = ports.flatMap((port) => row.value(port) ?? []);
  if (values.length === 0) return EMPTY_CELL;
  const few = values.length < samples.length ? ` (${values.length} of ${samples.length})` : "";
  return { text: `${rangeWords(context, row.kind, Math.min(...values), Math.max(...values), values)}${few}` };
}

function rangeWords(
  { display }: Context,
  kind: DisplayKind | "percent",
  low: number,
  high: number,
  values: readonly number[],
): string {
  if (kind === "percent") return joinRange((100 * low).toFixed(0), (100 * high).toFixed(0));
  const decimals = sharedDecimals(
    display,
    kind,
    values.map((value) => display.number(kind, value)),
  );
  return joinRange(display.digits(kind, low, decimals), display.digits(kind, high, decimals));
}

const joinRange = (low: string, high: string) => (low === high ? high : `${low} to ${high}`);

/** Seat cuts and springs that all heads share. */
function sharedWords(context: Context): string {
  const seats = context.sides.flatMap((side) => {
    const words = seatWords(context, side);
    return words === undefined ? [] : [{ side, words }];
  });
  const [first, second] = seats;
  const alike = first !== undefined && first.words === second?.words;
  const said = alike
    ? [`Seats: ${first.words}.`]
    : seats.map(({ side, words }) => `${capitalize(side)} seats: ${words}.`);
  return presentItems<string>([...said, springWords(context)]).join(" ");
}

function seatWords({ display, model, withheld }: Context, side: Side): string | undefined {
  if (withheld.seat) return undefined;
  const angle = (value: number) => display.full("angle", value, 0);
  const said = model.samples.map(({ stage }) => {
    const seat = stage.ports[side]?.seat;
    if (!seat) return undefined;
    const cuts = presentItems<string>([
      seat.top !== undefined && angle(seat.top.angle),
      seat.angle !== undefined && `${angle(seat.angle)} seat`,
      ...seat.bottom.map((cut) => angle(cut.angle)),
      seat.throatRadius && "radius",
    ]);
    return cuts.length > 1 ? cuts.join(" · ") : undefined;
  });
  const [first] = said;
  return first !== undefined && said.every((one) => one === first) ? first : undefined;
}

/** Springs as the product states them, else as all heads state them alike. */
function springWords({ display, model }: Context): string | undefined {
  const own = model.text.springs;
  const each = model.samples.map(({ springs }) => springs);
  const alike = each.length > 0 && each.every((one) => JSON.stringify(one) === JSON.stringify(each[0]));
  const springs = own ?? (alike ? each[0] : undefined);
  if (!springs) return undefined;
  const facts = presentItems<string>([
    springs.installedHeight !== undefined && `${display.full("length", springs.installedHeight)} installed`,
    springs.seatForce !== undefined && `${display.full("force", springs.seatForce)} on the seat`,
    springs.setUpFor !== undefined && `set up for valve lift up to ${display.full("lift", springs.setUpFor)}`,
  ]);
  return facts.length === 0 ? undefined : `Springs: ${facts.join(", ")}.`;
}

const mean = (values: readonly number[]) =>
  values.length === 0 ? undefined : values.reduce((sum, value) => sum + value, 0) / values.length;
