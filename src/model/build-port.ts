import { DEFAULTS } from "../job/defaults.ts";
import { type PortFacts, type ValveFacts, valvesOf } from "../job/inherit.ts";
import type { SectionRow } from "../job/schema/tables.ts";
import { type Metres, metres, squareMetres } from "../units/quantity.ts";
import { omitUndefined } from "../util/omit-undefined.ts";
import type { Cut, Pinch, Port, RoundedRectangle, Seat, Section, Valve } from "./model.ts";
import { roundedRectangleArea } from "./rounded-rectangle-area.ts";

/** Builds the dimensions of a port, with defaults filled in. */
export function buildPort(
  facts: PortFacts,
  notRemeasured: readonly string[],
  aging: Pick<Port, "stale" | "staleIfChanged">,
): Port {
  const valves = valvesOf(facts, DEFAULTS.valves).filter(isSized).map(buildValve);
  const { seat, opening } = facts;
  return {
    valves,
    ports: facts.ports ?? DEFAULTS.ports,
    feeds: facts.feeds ?? DEFAULTS.feeds,
    seat: seat && buildSeat(seat),
    throat: facts.throat,
    pinch: facts.pinch && buildPinch(facts.pinch),
    portVolume: facts.port_volume,
    portLength: facts.port_length,
    added: facts.added,
    sections: (facts.sections ?? []).map(buildSection),
    opening:
      opening?.width === undefined || opening.height === undefined
        ? undefined
        : { ...rectangle(opening.width, opening.height, opening.corner), matchedTo: opening.matched_to },
    gasketWindow:
      facts.gasket_window?.width === undefined || facts.gasket_window.height === undefined
        ? undefined
        : rectangle(facts.gasket_window.width, facts.gasket_window.height, facts.gasket_window.corner),
    portVolumes: facts.port_volumes === undefined ? [] : buildVolumes(facts.port_volumes),
    notRemeasured,
    ...aging,
  };
}

type Sized = ValveFacts & { readonly head: Metres };
const isSized = (valve: ValveFacts): valve is Sized => valve.head !== undefined;

const buildValve = ({ head, margin, back_cut: backCut, stem, material }: Sized): Valve => ({
  head,
  margin,
  backCut,
  stem,
  material,
});

const buildVolumes = (volumes: NonNullable<PortFacts["port_volumes"]>): Port["portVolumes"] =>
  Object.entries(volumes)
    .map(([cylinder, volume]) => ({ cylinder: Number(cylinder), volume }))
    .toSorted((a, b) => a.cylinder - b.cylinder);

function buildSeat({
  angle,
  width,
  top,
  bottom = [],
  outside,
  form,
}: NonNullable<PortFacts["seat"]>): Seat | undefined {
  if (angle === undefined) return undefined;
  const cuts = bottom.map((cut) => (typeof cut === "object" ? cut : cut === "radius" ? {} : { angle: cut }));
  const round = cuts.find((cut) => cut.angle === undefined);
  return {
    angle,
    width,
    top: typeof top === "number" ? { angle: top } : top,
    outside,
    form,
    bottom: cuts.filter((cut): cut is Cut => cut.angle !== undefined),
    ...(round && { throatRadius: omitUndefined({ radius: round.radius }) }),
  };
}

function buildPinch({
  width,
  height,
  corner,
  area,
  where,
  count = DEFAULTS.pinchCount,
}: NonNullable<PortFacts["pinch"]>): Pinch | undefined {
  const shape = width === undefined || height === undefined ? undefined : rectangle(width, height, corner);
  const single = shape ? roundedRectangleArea(shape) : area;
  return single === undefined ? undefined : { area: squareMetres(single * count), shape, where, count };
}

function buildSection({ at, width, height, corner, area, name }: SectionRow): Section {
  const shape = width === undefined || height === undefined ? undefined : rectangle(width, height, corner);
  return { at, area: area ?? roundedRectangleArea(shape as RoundedRectangle), shape, name };
}

const rectangle = (width: Metres, height: Metres, corner: Metres = metres(0)): RoundedRectangle => ({
  width,
  height,
  corner,
});
