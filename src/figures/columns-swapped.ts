import type { Port } from "../model/model.ts";
import { exhaustToIntake } from "./exhaust-to-intake.ts";
import { sameLift } from "./lifts.ts";
import { over } from "./limits.ts";
import { valveArea } from "./port-geometry.ts";
import type { Sweep } from "./sweep.ts";

/** How much nearer crossed columns lie where the valves bear witness, and where nothing else does [1]. */
const NEARER = 0.9;
const FAR_NEARER = 0.5;

/** A stage with what was flowed of it on each side. */
export type BothSides = {
  readonly ports: { readonly intake?: Port; readonly exhaust?: Port };
  readonly intake?: Pick<Sweep, "good">;
  readonly exhaust?: Pick<Sweep, "good">;
};

/**
 * Whether the valves of the exhaust are the smaller ones.
 *
 *     A_intake > A_exhaust
 *
 * @param ports  the two ports of a stage
 * @returns      true where both are stated and so; false where one is not
 * @source       definition
 * @example      exhaustIsSmaller({ intake: { valves: [{ head: 0.04 }] }, exhaust: { valves: [{ head: 0.03 }] } }) // true
 */
export function exhaustIsSmaller({ intake, exhaust }: BothSides["ports"]): boolean {
  const [into, out] = [intake && valveArea(intake), exhaust && valveArea(exhaust)];
  return into !== undefined && out !== undefined && over(into * 1e6, out * 1e6);
}

/**
 * Whether two stages, or two heads, read as if the columns of one of them were swapped: in one the exhaust flows more than the
 * intake at most lifts and in the other less, and each column lies nearer to the other stage's other column than to its own.
 *
 *     straight = Σ |ln (I_b ÷ I_a)| + |ln (E_b ÷ E_a)|;  crossed = Σ |ln (I_b ÷ E_a)| + |ln (E_b ÷ I_a)|
 *     swapped ⇔ crossed < 0.9 · straight where the exhaust's valves are stated and smaller, else crossed < 0.5 · straight
 *
 * @param from  a stage
 * @param to    the one it is compared with
 * @returns     true where it looks so; false with fewer than two lifts that all four columns share
 * @source      common practice: work that raises both sides makes the two sums equal, however far the exhaust passes the intake
 * @example     columnsSwapped({ ports: {} }, { ports: {} }) // false
 */
export function columnsSwapped(from: BothSides, to: BothSides): boolean {
  const [a, b] = [from, to].map(({ intake, exhaust }) =>
    exhaustToIntake(intake, exhaust).filter(({ ratio }) => ratio > 0),
  ) as [Ratios, Ratios];
  const shared = a.flatMap((one) => {
    const other = b.find(({ lift_m }) => sameLift(lift_m, one.lift_m));
    return other === undefined ? [] : [{ lift: one.lift_m, a: one.ratio, b: other.ratio }];
  });
  const most = (count: number) => count > shared.length / 2;
  const turned = (first: "a" | "b", second: "a" | "b") =>
    most(shared.filter((one) => one[first] > 1 && one[second] < 1).length);
  if (shared.length < 2 || !(turned("a", "b") || turned("b", "a"))) return false;
  let straight = 0;
  let crossed = 0;
  for (const { lift, ...ratios } of shared) {
    const [into, later] = [flowOf(from.intake, lift), flowOf(to.intake, lift)];
    const [out, laterOut] = [into * ratios.a, later * ratios.b];
    straight += Math.abs(Math.log(later / into)) + Math.abs(Math.log(laterOut / out));
    crossed += Math.abs(Math.log(later / out)) + Math.abs(Math.log(laterOut / into));
  }
  const witness = exhaustIsSmaller(from.ports) || exhaustIsSmaller(to.ports);
  return crossed < straight * (witness ? NEARER : FAR_NEARER);
}

type Ratios = ReturnType<typeof exhaustToIntake>;
const flowOf = (sweep: BothSides["intake"], lift: number): number =>
  sweep!.good.find((reading) => sameLift(reading.lift, lift))!.flow;
