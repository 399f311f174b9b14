import { type Port, SIDES, type Side } from "../../model/model.ts";
import { portVolume, usablePinch, valveDiameter } from "../geometry/port-geometry.ts";
import { exceeds, isOutside } from "../math/limits.ts";
import {
  type Finding,
  type Formatters,
  type KeyPath,
  keyPlace,
  leadingSetPlace,
  type StageRule,
} from "./check-input.ts";

const INCH = 0.0254;
const THROAT = { low: 0.8, high: 0.92 } as const;
const SEAT = { low: 0.025 * INCH, high: 0.12 * INCH } as const;
const VOLUME = { low: 0.98, high: 1.55 } as const;
const PINCH_SHARE = 0.97;

/** `name` says stage and side; `place` finds a key of the port in the job; `size` is a length as it was typed. */
type PortRule = (
  port: Port,
  about: {
    readonly name: string;
    readonly format: Formatters;
    readonly place: (...keys: readonly KeyPath[]) => Pick<Finding, "at" | "subject">;
    readonly size: (key: KeyPath, value: number, kind?: "length" | "volume") => string;
  },
) => readonly Finding[];

/** A throat outside 80–92 % of the valve. @source common practice */
export const throatShare: StageRule = (input) =>
  checkPorts(input, (port, { name, format, place, size }) => {
    const diameter = valveDiameter(port);
    const inherited = port.notRemeasured.includes("throat") && port.notRemeasured.includes("valve");
    if (diameter === undefined || port.throat === undefined || inherited || port.stale.includes("throat")) return [];
    const share = port.throat / diameter;
    if (!isOutside(share, THROAT.low, THROAT.high)) return [];
    return [
      {
        code: "figures/throat-share",
        message: `${name}: a throat of ${size(["throat"], port.throat)} is ${format.percent(share)} of the valve, outside 80–92 %`,
        hint: "check both diameters: the throat is the smallest one under the seat",
        ...place(["throat"], ["valve"]),
      },
    ];
  });

/** A seat width outside 0.025–0.120 in along the face. @source common practice */
export const seatWidth: StageRule = (input) =>
  checkPorts(input, (port, { name, format, place, size }) => {
    const width = port.seat?.width;
    if (width === undefined || port.notRemeasured.includes("seat")) return [];
    if (!isOutside(width * 1000, SEAT.low * 1000, SEAT.high * 1000)) return [];
    return [
      {
        code: "figures/seat-width",
        message: `${name}: a seat ${size(["seat", "width"], width)} wide, outside ${format.length(SEAT.low)}–${format.length(SEAT.high)}`,
        hint: "the width is measured along the seat's face; check the unit too",
        ...place(["seat", "width"]),
      },
    ];
  });

/** A port volume that its pinch and length cannot hold: outside 0.98–1.55 of pinch × length. @source common practice */
export const portVolumeShare: StageRule = (input) =>
  checkPorts(input, (port, { name, format, place, size }) => {
    const volume = portVolume(port);
    const pinch = usablePinch(port);
    if (volume === undefined || pinch === undefined || port.portLength === undefined) return [];
    if (["port_volume", "port_length"].some((key) => port.stale.includes(key))) return [];
    if (["port_volume", "port_length", "pinch"].every((key) => port.notRemeasured.includes(key))) return [];
    const share = volume / (pinch * port.portLength);
    if (!isOutside(share, VOLUME.low, VOLUME.high)) return [];
    return [
      {
        code: "figures/port-volume",
        message: `${name}: ${size(["port_volume"], volume, "volume")} is ${format.ratio(share)} of pinch × length, outside 0.98–1.55`,
        hint: "check volume, pinch and centreline length: one of them, or its unit, is wrong",
        ...place(["port_volume"], ["port_volumes"], ["pinch"], ["port_length"]),
      },
    ];
  });

/** A pinch that passes more than 0.97 of its ideal flow: never an error, as the pinch is hard to measure. @source common practice */
export const pinchShare: StageRule = ({ stage, figures, format }) =>
  SIDES.flatMap((side): Finding[] => {
    const { pinch_share_of_ideal: share, peak } = figures[side] ?? {};
    if (share === undefined || peak === undefined || !exceeds(share, PINCH_SHARE)) return [];
    return [
      {
        code: "figures/pinch-share",
        message: `${stage.name}, ${side}: the peak flow is ${format.ratio(share)} of the pinch's ideal flow`,
        hint: "the pinch was probably measured too small, or is not where it is thought to be",
        ...leadingSetPlace(stage, side, peak.lift_m),
      },
    ];
  });

function checkPorts({ stage, index, source, format }: Parameters<StageRule>[0], rule: PortRule): Finding[] {
  if (stage.repeats !== undefined) return [];
  return SIDES.flatMap((side: Side) => {
    const port = stage.ports[side];
    if (port === undefined) return [];
    const pathOf = (key: KeyPath): KeyPath => ["stages", index, side, ...key];
    return rule(port, {
      name: `${stage.name}, ${side}`,
      format,
      place: (...keys) => ({ subject: { stage: stage.name, side }, ...keyPlace(source, ...keys.map(pathOf)) }),
      size: (key, value, kind = "length") => source.textOf(pathOf(key), kind) ?? format[kind](value),
    });
  });
}
