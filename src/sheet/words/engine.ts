import { PINCH_BAND } from "../../model/constants.ts";

/** Power as an upper bound on air, named for what it is. */
export const airPowerWords = (power: string): string => `Air for at most about ${power} (rule of thumb, bare head).`;

/** What a compression figure rests on; it is never printed without it. */
export const COMPRESSION_BASIS = "calculated, with the gasket and piston stated by the customer";

/** Ends the caption of every block that makes an engine speed from the pinch. */
export const PINCH_SPEED_CAUTION = "It says nothing of what the engine's parts will stand.";

/** The common band of gas speed at the pinch. */
export const PINCH_BAND_WORDS = `${PINCH_BAND.low} to ${PINCH_BAND.high} of the speed of sound`;

/** Where a shop goes by a mark of its own: a speed of the gas, no limit of the engine. */
export const pinchMarkWords = (mark: string, rpm: string): string =>
  `the shop's own mark, ${mark}, reached at about ${rpm} rpm.`;
