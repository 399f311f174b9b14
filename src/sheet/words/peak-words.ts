/** A peak never stands without its lift, and says when no cam of this engine gets there. */
export function peakWords(peak: { side: string; flow: string; lift: string; beyondCam: boolean }): string {
  return `${peak.side} peak: ${peak.flow} at ${peak.lift}${peak.beyondCam ? ", beyond your cam" : ""}.`;
}
