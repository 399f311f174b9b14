import * as cam from "../../src/figures/engine/cam-mean-flow.ts";
import * as lifts from "../../src/figures/math/lifts.ts";
import * as pchip from "../../src/figures/math/pchip.ts";
import * as bands from "../../src/figures/side/bands.ts";

/** A type with plain numbers in place of quantities. */
export type Bare<T> = T extends number
  ? number
  : T extends string | undefined
    ? T
    : { readonly [K in keyof T]: Bare<T[K]> };

const bare = <Args extends readonly unknown[], T>(f: (...args: Args) => T) =>
  f as unknown as (...args: Bare<Args> & readonly unknown[]) => T;

/** Functions of the program for arguments without a unit in their type: the numbers of hand-worked examples. */
export const curveAt = bare(pchip.curveAt<number>);
export const flowCurve = bare(pchip.flowCurve);
export const integralTo = bare(pchip.integralTo);
export const meanFlow = bare(pchip.meanFlow);
export const flowBands = bare(bands.flowBands);
export const flowAtLift = bare(cam.flowAtCamLift);
export const sharedRange = bare(lifts.sharedRange);
