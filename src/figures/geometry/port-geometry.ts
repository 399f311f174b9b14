import type { Port } from "../../model/model.ts";
import { type Metres, metres, type SquareMetres, squareMetres } from "../../units/quantity.ts";
import { circleArea, curtainArea, minimumFlowArea } from "./valve-areas.ts";

/**
 * Diameter by which lift is judged: the mean of the port's valve heads, which keeps curtain ÷ valve area right for
 * alike valves and close for unlike ones.
 *
 *     D = Σ D_i ÷ n
 *
 * @param port  the port with its valves
 * @returns     D [m], or undefined when no valve is stated
 * @source      common practice
 * @example     valveDiameter({ valves: [{ head: 0.030 }, { head: 0.032 }] }) // 0.031
 */
export function valveDiameter(port: Port): Metres | undefined {
  if (port.valves.length === 0) return undefined;
  let sum = 0;
  for (const { head } of port.valves) sum += head;
  return metres(sum / port.valves.length);
}

/**
 * Area of all valve heads of a port.
 *
 *     A = Σ π D_i² ÷ 4
 *
 * @param port  the port with its valves
 * @returns     A [m²], or undefined when no valve is stated
 * @source      Heywood, Internal Combustion Engine Fundamentals (1988), §6.3.2
 * @example     valveArea({ valves: [{ head: 0.040 }] }) // 1.25664e-3
 */
export function valveArea(port: Port): SquareMetres | undefined {
  if (port.valves.length === 0) return undefined;
  return squareMetres(port.valves.reduce((sum, valve) => sum + circleArea(valve.head), 0));
}

/**
 * Curtain area of all valves of a port at one lift.
 *
 *     A = Σ π D_i L
 *
 * @param port  the port with its valves
 * @param lift  L [m], 0 or greater
 * @returns     A [m²], or undefined when no valve is stated; 0 at zero lift
 * @source      Heywood, Internal Combustion Engine Fundamentals (1988), §6.3.2
 * @example     portCurtainArea({ valves: [{ head: 0.034 }, { head: 0.034 }] }, metres(0.010)) // 2.13628e-3
 */
export function portCurtainArea(port: Port, lift: Metres): SquareMetres | undefined {
  if (port.valves.length === 0) return undefined;
  let sum = 0;
  for (const { head } of port.valves) sum += curtainArea(head, lift);
  return squareMetres(sum);
}

/**
 * Minimum flow area of all valves of a port at one lift. The seat's outside diameter counts where it is stated and the
 * valves are alike, else each valve's head.
 *
 *     A = Σ A_min(valve, L)
 *
 * @param port  the port: valves with stems, seat angle and width, throat; nothing from a throat that is stale
 * @param lift  L [m], 0 or greater
 * @returns     A [m²] and the stage (of unlike valves the highest), or undefined when a dimension is missing or cannot be
 * @source      Heywood, Internal Combustion Engine Fundamentals (1988), eqs 6.7–6.9
 * @example     portMinimumArea({ valves: [{ head: 0.040, stem: 0.007 }], seat: { angle: Math.PI / 4, width: 0.00212132 }, throat: 0.037, stale: [] }, metres(0.012)) // { area: 1.036726e-3, stage: 3 }
 */
export function portMinimumArea(port: Port, lift: Metres): { area: SquareMetres; stage: 1 | 2 | 3 } | undefined {
  const { seat, throat, valves, stale } = port;
  if (seat?.width === undefined || throat === undefined || valves.length === 0 || stale.includes("throat"))
    return undefined;
  if (!(seat.angle > 0 && seat.angle < Math.PI / 2)) return undefined;
  const alike = valves.every((valve) => valve.head === valves[0]!.head);
  let area = 0;
  let stage: 1 | 2 | 3 = 1;
  for (const { head, stem } of valves) {
    if (stem === undefined || stem >= throat) return undefined;
    const outside = alike ? (seat.outside ?? head) : head;
    const one = minimumFlowArea({ outside, faceWidth: seat.width, angle: seat.angle, throat, stem }, lift);
    if (!(one.area >= 0)) return undefined;
    area += one.area;
    stage = one.stage > stage ? one.stage : stage;
  }
  return { area: squareMetres(area), stage };
}

/**
 * Area of the pinch, where it may be used in figures.
 *
 *     A = the pinch as measured
 *
 * @param port  the port
 * @returns     A [m²], or undefined when it is not stated or was inherited across work on the port
 * @example     usablePinch({ pinch: { area: 0.001 }, stale: [] }) // 0.001
 */
export function usablePinch(port: Port): SquareMetres | undefined {
  return port.stale.includes("pinch") ? undefined : port.pinch?.area;
}

/**
 * Mean area of a port along its length.
 *
 *     A = port volume ÷ port length
 *
 * @param port  the port with its volume [m³] and centreline length [m]
 * @returns     A [m²], or undefined when either is missing or was inherited across work on the port
 * @source      common practice
 * @example     meanPortArea({ portVolume: 1e-4, portLength: 0.1, portVolumes: [], stale: [] }) // 0.001
 */
export function meanPortArea(port: Port): SquareMetres | undefined {
  const volume = portVolume(port);
  if (volume === undefined || port.portLength === undefined) return undefined;
  if (port.stale.includes("port_volume") || port.stale.includes("port_length")) return undefined;
  return squareMetres(volume / port.portLength);
}

/**
 * Volume of a port: as stated, else the mean of those stated by cylinder.
 *
 *     V = Σ V_i ÷ n
 *
 * @param port  the port
 * @returns     V [m³], or undefined when none is stated
 * @example     portVolume({ portVolumes: [{ cylinder: 1, volume: 1e-4 }, { cylinder: 2, volume: 1.2e-4 }] }) // 1.1e-4
 */
export function portVolume(port: Port): number | undefined {
  if (port.portVolume !== undefined) return port.portVolume;
  if (port.portVolumes.length === 0) return undefined;
  return port.portVolumes.reduce((sum, one) => sum + one.volume, 0) / port.portVolumes.length;
}
