import { type Port, SIDES, type Side } from "../../model/model.ts";
import { portVolume, usablePinch, valveDiameter } from "../geometry/port-geometry.ts";
import { exceeds, isOutside } from "../math/limits.ts";
import { type Finding, type Formatters, leadingSetPlace, type StageRule } from "./check-input.ts";

const INCH = 0.0254;
const THROAT = { low: 0.8, high: 0.92 } as const;
const SEAT = { low: 0.025 * INCH, high: 0.12 * INCH } as const;
const VOLUME = { low: 0.98, high: 1.55 } as const;
const PINCH_SHARE = 0.97;

type PortRule = (port: Port, name: string, format: Formatters) => readonly Finding[];

/** A throat outside 80–92 % of the valve. @source common practice */
export const throatShare: StageRule = (input) =>
  checkPorts(input, (port, name, format) => {
    const diameter = valveDiameter(port);
    const inherited = port.notRemeasured.includes("throat") && port.notRemeasured.includes("valve");
    if (diameter === undefined || port.throat === undefined || inherited || port.stale.includes("throat")) return [];
    const share = port.throat / diameter;
    if (!isOutside(share, THROAT.low, THROAT.high)) return [];
    return [
      {
        code: "figures/throat-share",
        message: `${name}: a throat of ${format.length(port.throat)} is ${format.percent(share)} of the valve, outside 80–92 %`,
        hint: "check both diameters: the throat is the smallest one under the seat",
      },
    ];
  });

/** A seat width outside 0.025–0.120 in along the face. @source common practice */
export const seatWidth: StageRule = (input) =>
  checkPorts(input, (port, name, format) => {
    const width = port.seat?.width;
    if (width === undefined || port.notRemeasured.includes("seat")) return [];
    if (!isOutside(width * 1000, SEAT.low * 1000, SEAT.high * 1000)) return [];
    return [
      {
        code: "figures/seat-width",
        message: `${name}: a seat ${format.length(width)} wide, outside ${format.length(SEAT.low)}–${format.length(SEAT.high)}`,
        hint: "the width is measured along the seat's face; check the unit too",
      },
    ];
  });

/** A port volume that its pinch and length cannot hold: outside 0.98–1.55 of pinch × length. @source common practice */
export const portVolumeShare: StageRule = (input) =>
  checkPorts(input, (port, name, format) => {
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
        message: `${name}: ${format.volume(volume)} is ${format.ratio(share)} of pinch × length, outside 0.98–1.55`,
        hint: "check volume, pinch and centreline length: one of them, or its unit, is wrong",
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

function checkPorts({ stage, format }: Parameters<StageRule>[0], rule: PortRule): Finding[] {
  if (stage.repeats !== undefined) return [];
  return SIDES.flatMap((side: Side) => {
    const port = stage.ports[side];
    return port === undefined ? [] : rule(port, `${stage.name}, ${side}`, format);
  });
}
