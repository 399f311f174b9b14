import type { Model, Port } from "../../model/model.ts";
import { isClear } from "../../model/verdict.ts";
import type { Comparison, EngineFigures, StageFigures } from "../figures.ts";
import { portVolume } from "../geometry/port-geometry.ts";

/** What is known of one of two heads on the same engine; volume of the intake port [m³]. */
type HeadOnEngine = { readonly engine?: EngineFigures | undefined; readonly portVolume?: number | undefined };

/** Two heads, or two stages of one, on the same engine. */
export type FillingInput = {
  readonly intake?: Comparison | undefined;
  readonly exhaust?: Comparison | undefined;
  /** Net lift of the intake cam [m], and the engine speeds asked for [rpm]. */
  readonly camLift?: number | undefined;
  readonly rpm?: { readonly from: number; readonly to: number } | undefined;
  readonly from: HeadOnEngine;
  readonly to: HeadOnEngine;
};

/** Gain of flow from which a larger port is allowed for, and how much larger; without that gain volumes must be alike. */
const GAIN = 0.1;
const LARGER = 0.15;
const ALIKE = 0.03;
/** The engine speed is told in steps of this [rpm]. */
const STEP = 250;

/**
 * Which of two heads should draw in more air at high engine speed with all else alike, and from where; undefined wherever what was
 * measured cannot tell.
 *
 *     every change up to the cam's lift clear and alike in sign;  rpm = the lesser head's speed at mean inlet Mach number 0.40
 *
 * @param input  the comparisons of both sides, the cam's lift, the speeds asked for, each head's port volume and engine figures
 * @returns      the better head and the engine speed, rounded up to the next 250 rpm
 * @source       form of Fukutani and Watanabe, SAE 790484 (from memory); the gates are our own study's, `engine-speed.md`
 * @example      fillsBetterAbove({ from: {}, to: {} }) // undefined
 */
export function fillsBetterAbove(
  input: FillingInput,
): { readonly better: "from" | "to"; readonly rpm: number } | undefined {
  const { intake, exhaust, camLift, rpm } = input;
  if (!intake || !exhaust || camLift === undefined || rpm === undefined) return undefined;
  if (!comparable(intake) || !comparable(exhaust)) return undefined;
  const better = clearlyMore(intake, camLift);
  if (better === undefined || isWorse(exhaust, better)) return undefined;
  const [gaining, lesser] = better === "to" ? [input.to, input.from] : [input.from, input.to];
  const ratio = 1 + (intake.mean_change_ratio ?? 0);
  const gain = better === "to" ? ratio - 1 : 1 / ratio - 1;
  if (!volumesAllow(gaining.portVolume, lesser.portVolume, gain)) return undefined;
  const speed = lesser.engine?.mean_inlet_mach_rpm;
  if (speed === undefined || gaining.engine?.mean_inlet_mach_rpm === undefined) return undefined;
  if (speed < rpm.from || speed > rpm.to) return undefined;
  return { better, rpm: Math.ceil(speed / STEP - 1e-9) * STEP };
}

/**
 * The comparisons with what can be told of filling.
 *
 *     see `fillsBetterAbove`
 *
 * @param comparisons  all of a job
 * @param model        its stages and other heads, with their port volumes
 * @param stages       the figures of its stages
 * @returns            the same comparisons, those of intakes with `fills_better` where it can be told
 * @source             as `fillsBetterAbove`
 * @example            addFilling([], { stages: [], compared: [] }, []) // []
 */
export function addFilling(
  comparisons: readonly Comparison[],
  model: Pick<Model, "engine" | "stages" | "compared">,
  stages: readonly StageFigures[],
): readonly Comparison[] {
  const headOf = ({ stage, label }: Comparison["from"], engine: EngineFigures | undefined): HeadOnEngine =>
    label === undefined
      ? {
          engine: stages.find(({ name }) => name === stage)?.engine,
          portVolume: volumeOf(model.stages.find(({ name }) => name === stage)?.ports.intake),
        }
      : { engine, portVolume: volumeOf(model.compared.find((one) => one.label === label)?.stage.ports.intake) };
  return comparisons.map((intake) => {
    if (intake.side !== "intake" || intake.to.label !== undefined) return intake;
    const exhaust = comparisons.find(
      ({ side, from, to }) => side === "exhaust" && isSame(from, intake.from) && isSame(to, intake.to),
    );
    const found = fillsBetterAbove({
      intake,
      exhaust,
      camLift: model.engine?.cams.intake?.netLift,
      rpm: model.engine?.rpm,
      from: headOf(intake.from, intake.engine),
      to: headOf(intake.to, undefined),
    });
    return found ? { ...intake, fills_better: { head: found.better, above_rpm: found.rpm } } : intake;
  });
}

const isSame = (a: Comparison["from"], b: Comparison["from"]) => a.stage === b.stage && a.label === b.label;
const volumeOf = (port: Port | undefined) =>
  port === undefined || port.notRemeasured.includes("port_volume") ? undefined : portVolume(port);

const comparable = ({ like_for_like: alike, verdict_withheld: withheld, not_compared: not }: Comparison) =>
  alike && withheld === undefined && not === undefined;

/** The head that flows clearly more at every lift up to the cam's, beyond the ± that all lifts share; both must reach that lift. */
function clearlyMore({ changes }: Comparison, camLift: number): "from" | "to" | undefined {
  const reach = changes.filter(({ lift_m: lift }) => lift <= camLift + 1e-7);
  if (reach.length < 2 || !changes.some(({ lift_m: lift }) => lift >= camLift - 1e-7)) return undefined;
  const signs = reach.map(({ change_m3_s: change, verdict, joint_uncertainty_m3_s: joint = 0 }) =>
    verdict !== undefined && isClear(verdict) && Math.abs(change) > joint ? Math.sign(change) : 0,
  );
  const [sign] = signs;
  if (!sign || signs.some((one) => one !== sign)) return undefined;
  return sign > 0 ? "to" : "from";
}

/** Whether the exhaust of the better head is clearly worse, on average or at any lift. */
function isWorse(exhaust: Comparison, better: "from" | "to"): boolean {
  const verdicts = [exhaust.mean_change_verdict, ...exhaust.changes.map(({ verdict }) => verdict)];
  const signs = [exhaust.mean_change_ratio ?? 0, ...exhaust.changes.map(({ change_m3_s: change }) => change)];
  const against = better === "to" ? -1 : 1;
  return verdicts.some((verdict, i) => verdict !== undefined && isClear(verdict) && Math.sign(signs[i]!) === against);
}

function volumesAllow(gaining: number | undefined, lesser: number | undefined, gain: number): boolean {
  if (gaining === undefined || lesser === undefined) return false;
  const more = gaining / lesser - 1;
  return gain >= GAIN ? more <= LARGER + 1e-9 : Math.abs(more) <= ALIKE + 1e-9;
}
