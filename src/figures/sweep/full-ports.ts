import { SAME_LIFT } from "../../units/same-lift.ts";
import { distinctLifts, sharedLifts } from "../math/lifts.ts";
import { handOfPort, isGood, type Point } from "./point.ts";

/** A port is full from this share of the lifts of the port with most. */
const FULL = 0.75;

/** A port that was flowed at so many lifts that it belongs to a curve. */
type FullPort = { readonly port: string; readonly lifts: number };

/**
 * Ports that are full: each has good readings at three quarters or more of the lifts at which the port with most has them, of
 * equals the first typed. The others are evenness checks. Where nothing good was read, whatever was read counts.
 *
 *     |L_port ∩ L_most| ≥ ¾ |L_most|
 *
 * @param points  readings of one set and side
 * @returns       the full ports of any hand with the number of their lifts, in the order in which they were typed
 * @source        common practice
 * @example       fullPorts([]) // []
 */
export function fullPorts(points: readonly Point[]): FullPort[] {
  const good = points.filter((point) => isGood(point) && point.lift > SAME_LIFT);
  const counted = good.length > 0 ? good : points;
  const ports = measuredPorts(counted).map((port) => ({
    port,
    lifts: distinctLifts(counted.filter((point) => point.port === port).map(({ lift }) => lift)),
  }));
  const most = ports.reduce<readonly number[]>((best, { lifts }) => (lifts.length > best.length ? lifts : best), []);
  return ports
    .filter(({ lifts }) => sharedLifts([most, lifts]).length >= FULL * most.length)
    .map(({ port, lifts }) => ({ port, lifts: lifts.length }));
}

/**
 * Ports of which something was read.
 *
 *     each port once
 *
 * @param points  readings of one set and side
 * @returns       names of the ports, in the order in which they were typed; empty without readings
 * @example       measuredPorts([{ port: "2" }, { port: "1" }, { port: "2" }]) // ["2", "1"]
 */
export const measuredPorts = (points: readonly Pick<Point, "port">[]): string[] => [
  ...new Set(points.map(({ port }) => port)),
];

/**
 * Hand of which a curve is made: ports of unlike hand are never averaged.
 *
 *     the hand with most lifts, each full port's counted; of equals the first typed
 *
 * @param ports  full ports, of one stage or of several
 * @returns      the hand, see `handOfPort`; undefined without ports
 * @source       common practice
 * @example      mainHand([{ port: "1 end", lifts: 8 }, { port: "2 middle", lifts: 7 }, { port: "3 middle", lifts: 7 }]) // "middle"
 */
export function mainHand(ports: readonly FullPort[]): string | undefined {
  const sums = new Map<string, number>();
  for (const { port, lifts } of ports) sums.set(handOfPort(port), (sums.get(handOfPort(port)) ?? 0) + lifts);
  const most = Math.max(...sums.values());
  return [...sums].find(([, lifts]) => lifts === most)?.[0];
}
