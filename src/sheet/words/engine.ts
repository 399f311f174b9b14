import { PINCH_BAND } from "../../model/constants.ts";

/** Power as an upper bound on air, named for what it is. */
export const airPowerWords = (power: string): string => `Air for at most about ${power} (rule of thumb, bare head).`;

/** What a compression figure rests on; it is never printed without it. */
export const COMPRESSION_BASIS = "calculated, with the gasket and piston stated by the customer";

/** Stands inside every block that makes an engine speed from the pinch. */
export const PINCH_SPEED_CAUTION =
  "These speeds describe air in the port only. They say nothing about what the engine's parts will stand.";

/** The common band of gas speed at the pinch. */
export const PINCH_BAND_WORDS = `${PINCH_BAND.low} to ${PINCH_BAND.high} of the speed of sound`;

/** The band of engine speeds, as a band; then those of other heads on the same engine. */
export function pinchBandWords(
  low: string,
  high: string,
  others: readonly { readonly label: string; readonly low: string; readonly high: string }[] = [],
): string {
  const more = others.map((other) => ` With ${other.label}: between ${other.low} and ${other.high} rpm.`);
  return `Gas speed at the pinch passes ${PINCH_BAND_WORDS} between ${low} and ${high} rpm.${more.join("")}`;
}

/** Where a shop goes by a mark of its own: a speed of the gas, no limit of the engine. */
export const pinchMarkWords = (mark: string, rpm: string): string =>
  `It reaches the shop's own mark, ${mark}, at about ${rpm} rpm.`;
