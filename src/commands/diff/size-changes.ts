import { type Model, type Port, SIDES, type Side, type Stage } from "../../model/model.ts";
import type { Kind } from "../../units/table.ts";
import type { SizeChange } from "./job-diff.ts";

type Size = readonly [what: string, kind: Kind, value: number | undefined];

/** Relative tolerance for one size typed in inches and in millimetres. */
const TOLERANCE = 1e-5;

/** Sizes of the engine, springs, guides and limits that differ, with both values. */
export function engineChanges(a: Model, b: Model): SizeChange[] {
  const sizes = (model: Model) => [...engineSizes(model), ...springSizes(model), ...limitSizes(model)];
  return compareSizes(sizes(a), sizes(b), {});
}

export function stageChanges(a: Stage, b: Stage): SizeChange[] {
  return [
    ...SIDES.flatMap((side) => compareSizes(portSizes(a, side), portSizes(b, side), { stage: b.name, side })),
    ...compareSizes(headSizes(a), headSizes(b), { stage: b.name }),
  ];
}

function compareSizes(
  from: readonly Size[],
  to: readonly Size[],
  place: Pick<SizeChange, "stage" | "side">,
): SizeChange[] {
  const names = [...new Set([...from, ...to].map(([what]) => what))];
  return names.flatMap((what) => {
    const x = from.find(([name]) => name === what)?.[2];
    const other = to.find(([name]) => name === what);
    const y = other?.[2];
    const kind = (other ?? from.find(([name]) => name === what))![1];
    const same = x === y || (x !== undefined && y !== undefined && Math.abs(x - y) <= TOLERANCE * Math.abs(x));
    return same
      ? []
      : [{ what, ...place, kind, ...(x !== undefined && { from: x }), ...(y !== undefined && { to: y }) }];
  });
}

function engineSizes({ engine }: Model): Size[] {
  const cam = (side: Side): Size[] => [
    [`${side} cam net lift`, "length", engine?.cams[side]?.netLift],
    [`${side} cam duration`, "angle", engine?.cams[side]?.duration],
  ];
  return [
    ["bore", "length", engine?.bore],
    ["stroke", "length", engine?.stroke],
    ["rod length", "length", engine?.rodLength],
    ["piston dish", "volume", engine?.piston?.dish],
    ["piston below deck", "length", engine?.piston?.belowDeck],
    ["gasket", "volume", engine?.gasket?.kind === "volume" ? engine.gasket.volume : undefined],
    ["gasket bore", "length", engine?.gasket?.kind === "ring" ? engine.gasket.bore : undefined],
    ["gasket, compressed", "length", engine?.gasket?.kind === "ring" ? engine.gasket.compressed : undefined],
    ...SIDES.flatMap(cam),
  ];
}

function springSizes({ text: { springs, springsBySide, guides } }: Model): Size[] {
  const each = springsBySide
    ? SIDES.map((side) => [`${side} springs`, springsBySide[side]] as const)
    : [["springs", springs] as const];
  return [
    ...each.flatMap(([name, own]): Size[] => [
      [`${name} rate`, "springRate", own?.rate],
      [`${name} installed height`, "length", own?.installedHeight],
      [`${name} seat force`, "force", own?.seatForce],
      [`${name} open force`, "force", own?.openForce],
      [`${name} open at`, "length", own?.openAt],
      [`${name} coil bind`, "length", own?.coilBind],
      [`${name} retainer to seal`, "length", own?.retainerToSeal],
      [`${name} set up for`, "length", own?.setUpFor],
    ]),
    ...SIDES.map((side): Size => [`${side} guide clearance`, "length", guides?.clearance?.[side]]),
  ];
}

function limitSizes({ text: { valveTrainLimits: limits } }: Model): Size[] {
  return [
    ["limit of what is alike", "length", limits.alike],
    ["limit of guide clearance", "length", limits.guide],
    ["limit of seat runout", "length", limits.runout],
    ["least seat force", "force", limits.seatForce?.[0]],
    ["largest seat force", "force", limits.seatForce?.[1]],
    ["least open force", "force", limits.openForce?.[0]],
    ["largest open force", "force", limits.openForce?.[1]],
    ["least to coil bind", "length", limits.coilBind],
    ["least retainer to seal", "length", limits.retainerToSeal],
  ];
}

function portSizes(stage: Stage, side: Side): Size[] {
  const port: Port | undefined = stage.ports[side];
  if (!port) return [];
  const many = port.valves.length > 1;
  const alike = port.valves.every(
    (valve) => valve.head === port.valves[0]?.head && valve.stem === port.valves[0]?.stem,
  );
  const valves = (alike ? port.valves.slice(0, 1) : port.valves).flatMap((valve, k): Size[] => {
    const name = many && !alike ? `valve ${k + 1}` : "valve";
    return [
      [name, "length", valve.head],
      [`${name} margin`, "length", valve.margin],
      [`${name} back cut`, "angle", valve.backCut?.angle],
      [`${name} stem`, "length", valve.stem],
    ];
  });
  return [
    ["valves", "ratio", port.valves.length || undefined],
    ["ports", "ratio", port.ports],
    ...valves,
    ["seat angle", "angle", port.seat?.angle],
    ["seat width", "length", port.seat?.width],
    ["seat outside", "length", port.seat?.outside],
    ["top cut", "angle", port.seat?.top?.angle],
    ["top cut width", "length", port.seat?.top?.width],
    ...(port.seat?.bottom ?? []).flatMap(({ angle, width }, k): Size[] => [
      [`bottom cut ${k + 1}`, "angle", angle],
      [`bottom cut ${k + 1} width`, "length", width],
    ]),
    ["throat radius", "length", port.seat?.throatRadius?.radius],
    ["throat", "length", port.throat],
    ["pinch", "area", port.pinch?.area],
    ["port volume", "volume", port.portVolume],
    ...port.portVolumes.map(({ cylinder, volume }): Size => [`port volume ${cylinder}`, "volume", volume]),
    ["port length", "length", port.portLength],
    ...(["opening", "gasketWindow"] as const).flatMap((key): Size[] => {
      const name = key === "opening" ? "port window" : "gasket window";
      return [
        [`${name} width`, "length", port[key]?.width],
        [`${name} height`, "length", port[key]?.height],
        [`${name} corner`, "length", port[key]?.corner],
      ];
    }),
  ];
}

const OF_VALVE = ["height", "shim", "tip", "drop", "guide", "runout", "seal"] as const;

function headSizes({ chambers, deck, valveTrain = [] }: Stage): Size[] {
  return [
    ...chambers.map(
      ({ chamber, volume }): Size => [chamber === undefined ? "chamber" : `chamber ${chamber}`, "volume", volume],
    ),
    ["deck cut", "length", deck?.cut],
    ["deck thickness", "length", deck?.thickness],
    ["deck flatness", "length", deck?.flatness],
    ["deck finish", "length", deck?.finish],
    ...valveTrain.flatMap((row): Size[] => {
      const name = `${row.cylinder}${row.side === "intake" ? "I" : "E"}${row.letter}`;
      const vacuum = typeof row.vacuum === "number" ? row.vacuum : undefined;
      return [
        ...OF_VALVE.map((key): Size => [`${name} ${key}`, "length", row[key]]),
        [`${name} vacuum`, "pressure", vacuum],
      ];
    }),
  ];
}
