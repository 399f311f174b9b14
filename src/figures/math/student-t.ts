import { memoize } from "../../util/memoize.ts";
import { incompleteBetaFunction, logGamma } from "./incomplete-beta.ts";

/** Level of confidence of every ± here: that of k = 2 with a normal distribution [1]. */
export const CONFIDENCE = 0.954499736103642;

/**
 * Coverage factor: Student's t, two-sided. At 1e6 degrees of freedom and more it is the normal distribution's.
 *
 *     P(|T| ≤ t) = 1 − I_x(ν ÷ 2, ½) = p,  x = ν ÷ (ν + t²)
 *
 * @param degreesOfFreedom  ν [1], greater than 0; need not be whole
 * @param confidence        p [1], between 0 and 1; left out, that of k = 2
 * @returns                 t [1]; 2 for infinitely many degrees of freedom at the usual confidence
 * @source                  JCGM 100:2008 (GUM), annex G and table G.2
 * @example                 studentT(3) // 3.307
 */
export function studentT(degreesOfFreedom: number, confidence: number = CONFIDENCE): number {
  return coverageFactor(Math.min(degreesOfFreedom, 1e6), confidence);
}

const coverageFactor = memoize(solveCoverageFactor, {
  max: 512,
  key: (nu, confidence) => (confidence === CONFIDENCE ? nu : `${nu} ${confidence}`),
});

function solveCoverageFactor(nu: number, confidence: number): number {
  const incomplete = incompleteBetaFunction(nu / 2, 0.5);
  const within = (t: number) => 1 - incomplete(nu / (nu + t * t));
  const peak = (2 * Math.exp(logGamma((nu + 1) / 2) - logGamma(nu / 2))) / Math.sqrt(nu * Math.PI);
  const slope = (t: number) => peak * (1 + (t * t) / nu) ** (-(nu + 1) / 2);
  // P is concave, so Newton's steps come up to t from below and never pass it: from the normal distribution's, which is the least.
  let t = confidence >= CONFIDENCE ? 2 : 0;
  for (let k = 0; k < 200; k++) {
    const step = (confidence - within(t)) / slope(t);
    if (!(step > 1e-14 * t)) break;
    t += step;
  }
  return t;
}
