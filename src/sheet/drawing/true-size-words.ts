import type { TrueSize } from "../content.ts";
import type { Display } from "../display.ts";

/** A bar that a ruler can be laid to: an inch, or two centimetres. */
export function scaleBar(display: Display): TrueSize["scaleBar"] {
  const metres = /^(in|thou)$/.test(display.unit("length")) ? 0.0254 : 0.02;
  return { length: metres * 1000, parts: 4, label: display.full("length", metres, 0) };
}

/** What every caption of drawings opens with. */
export const trueSize = (display: Display): string =>
  `True size (1 : 1) when printed at 100 %: the bar must measure ${scaleBar(display).label}.`;

/** In place of a drawing that is larger than the room it has. */
export const tooLarge = (what: string): string =>
  `${what}: not drawn, since at true size it is larger than the room here.`;
