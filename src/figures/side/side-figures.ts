import type { Model, Side, Stage } from "../../model/model.ts";
import type { Metres } from "../../units/quantity.ts";
import { omitUndefined } from "../../util/omit-undefined.ts";
import { comparedFlows } from "../comparison/compared-flows.ts";
import { isAccuracyUnknown } from "../comparison/flow-change.ts";
import { camMeanFlow } from "../engine/cam-mean-flow.ts";
import { openingFlow } from "../engine/opening-flow.ts";
import type { SetSideFigures, SideFigures } from "../figures.ts";
import { meanPortArea, portVolume, usablePinch, valveArea, valveDiameter } from "../geometry/port-geometry.ts";
import type { LiftRange } from "../math/lifts.ts";
import { meanFlow } from "../math/pchip.ts";
import { combine, uncertaintyFigures } from "../math/uncertainty.ts";
import { excludedReadings } from "../sweep/excluded-readings.ts";
import type { Sweep } from "../sweep/sweep.ts";
import { curveTerms } from "../sweep/sweep-uncertainty.ts";
import { flowBands } from "./bands.ts";
import { curvePoints } from "./curve-points.ts";
import { afterPeak, peakReading, plateau, type RangeRule } from "./curve-shape.ts";
import { cylinderFigures, portSpread } from "./cylinder-figures.ts";
import { flatSpots } from "./flat-spots.ts";
import { type IdealFlow, readingFigures } from "./reading-figures.ts";
import type { ReportLift } from "./report-lifts.ts";

/** Beyond this ratio of pressures the shape of a converted curve is not reported. */
const SHAPE_RATIO = 1.5;

/** Values that the stages of a job share on one side. */
export type SideBasis = {
  readonly range?: LiftRange;
  readonly lifts: readonly ReportLift[];
  readonly ideal: IdealFlow;
};

/**
 * All figures of one side of a stage: dimensions, readings and what follows from them.
 *
 *     see each part
 *
 * @param model  the model
 * @param stage  the stage
 * @param sweep  the leading set's sweep on that side; undefined when it was not flowed
 * @param side   intake or exhaust
 * @param basis  range, report lifts and ideal flow common to the job's stages
 * @returns      the figures, or undefined for a side that is neither described nor flowed
 * @example      sideFigures({}, { ports: {} }, undefined, "intake", {}) // undefined
 */
export function sideFigures(
  model: Model,
  stage: Stage,
  sweep: Sweep | undefined,
  side: Side,
  basis: SideBasis,
): SideFigures | undefined {
  if (isAbsent(stage, sweep, side)) return undefined;
  return {
    ...dimensionFigures(stage, side),
    flowed: flowedCylinders(model, stage, side, sweep),
    ...(sweep === undefined
      ? { readings: [], left_out: [], curve: [] }
      : setSideFigures(sweep, stage, side, basis.ideal)),
    ...(sweep === undefined
      ? { compared: [], bands: {}, cylinders: [] }
      : flowFigures(model, stage, sweep, side, basis)),
    ...(sweep?.good.length ? sourceFigures(sweep) : {}),
  };
}

/** What the ± rest on, as figures. */
function sourceFigures({ scatter }: Sweep): Pick<SideFigures, "sources"> {
  if (scatter === undefined) return {};
  const { repeatability, remounting } = scatter;
  const figures = <From>({
    from,
    ratio,
    dof,
  }: {
    readonly from: From;
    readonly ratio: number;
    readonly dof: number;
  }) => ({
    from,
    ratio,
    ...(Number.isFinite(dof) ? { dof } : {}),
  });
  return {
    sources: { ...(repeatability && { repeatability: figures(repeatability) }), remounting: figures(remounting) },
  };
}

/**
 * Readings, peak and curve of any set on one side, leading or not.
 *
 *     see each part
 *
 * @param sweep  the set's sweep
 * @param stage  the stage
 * @param side   intake or exhaust
 * @param ideal  ideal flow per area of both sides [m/s]
 * @returns      the figures; without a peak where nothing good was read
 * @example      setSideFigures({ shown: [], good: [], source: { side: "intake", set: { runs: [] } } }, { ports: {} }, "intake", {}) // { readings: [], left_out: [], curve: [] }
 */
export function setSideFigures(sweep: Sweep, stage: Stage, side: Side, ideal: IdealFlow): SetSideFigures {
  return {
    readings: sweep.shown.map((reading) => readingFigures(reading, stage.ports[side], ideal[side])),
    left_out: excludedReadings(sweep),
    ...peakFigures(sweep),
    curve: sweep.curve === undefined ? [] : curvePoints(sweep.curve),
  };
}

function peakFigures({ good }: Sweep): Pick<SideFigures, "peak"> {
  const peak = peakReading(good);
  if (peak === undefined) return {};
  const { lift, flow, terms } = peak;
  return { peak: { lift_m: lift, flow_m3_s: flow, ...uncertaintyFigures(terms && combine(terms)) } };
}

/** A side that is neither described nor flowed. */
const isAbsent = (stage: Stage, sweep: Sweep | undefined, side: Side): boolean =>
  stage.ports[side] === undefined && (sweep === undefined || hasNoReadings(sweep));

function hasNoReadings(sweep: Sweep): boolean {
  return sweep.source.set.runs.every((run) => run.readings[sweep.source.side].length === 0);
}

function dimensionFigures(stage: Stage, side: Side) {
  const port = stage.ports[side];
  if (port === undefined) return { valves: 1, ports: 1, not_remeasured: [] };
  const diameter = valveDiameter(port);
  const valve = valveArea(port);
  const pinch = usablePinch(port);
  const volume = portVolume(port);
  const mean = meanPortArea(port);
  const ratioed = port.throat !== undefined && diameter !== undefined && !port.stale.includes("throat");
  return {
    valves: Math.max(1, port.valves.length),
    ports: port.ports,
    ...(diameter === undefined ? {} : { valve_diameter_m: diameter }),
    ...(port.throat === undefined ? {} : { throat_m: port.throat }),
    ...(ratioed ? { throat_ratio: port.throat / diameter } : {}),
    ...(port.seat?.width === undefined ? {} : { seat_width_m: port.seat.width }),
    ...(port.seat === undefined ? {} : { seat_angle_rad: port.seat.angle }),
    ...(port.seat?.outside === undefined ? {} : { seat_outside_m: port.seat.outside }),
    ...(port.pinch === undefined ? {} : { pinch_area_m2: port.pinch.area }),
    ...(pinch === undefined || valve === undefined ? {} : { pinch_to_valve_area: pinch / valve }),
    ...(mean === undefined ? {} : { mean_port_area_m2: mean }),
    ...(volume === undefined ? {} : { port_volume_m3: volume }),
    not_remeasured: [...port.notRemeasured],
  };
}

function flowedCylinders(model: Model, stage: Stage, side: Side, sweep: Sweep | undefined): SideFigures["flowed"] {
  const cylinders = [...new Set((sweep?.points ?? []).map((point) => point.run.cylinder))].sort((a, b) => a - b);
  const listed = model.text.heads.reduce((sum, head) => sum + head.cylinders.length, 0);
  const engine = listed > 0 ? listed : model.engine?.cylinders;
  const of = engine === undefined ? undefined : Math.round(engine / (stage.ports[side]?.feeds ?? 1));
  return { cylinders, ...(of === undefined ? {} : { of }) };
}

function flowFigures(model: Model, stage: Stage, sweep: Sweep, side: Side, { range, lifts, ideal }: SideBasis) {
  const { good, curve } = sweep;
  const port = stage.ports[side];
  const diameter = port === undefined ? undefined : valveDiameter(port);
  const valve = port === undefined ? undefined : valveArea(port);
  const pinch = port === undefined ? undefined : usablePinch(port);
  const peak = peakReading(good);
  const cylinders = cylinderFigures(sweep, range);
  const spread = portSpread(cylinders.map((one) => one.mean_flow_m3_s));
  const pressureRatio = conversionRatio(sweep, model.reference.testPressure);
  const cam = model.engine?.cams[side];
  const camMean = cam === undefined || curve === undefined ? undefined : camMeanFlow(curve, cam);
  const opening = cam === undefined || curve === undefined ? [] : openingFlow(curve, cam);
  const mean = meanFigures(sweep, range);
  return {
    compared: comparedFlows(sweep, lifts),
    ...(mean === undefined ? {} : { mean_flow: mean }),
    bands: curve === undefined || diameter === undefined ? {} : flowBands(curve, diameter),
    ...(camMean === undefined ? {} : { cam_mean_flow_m3_s: camMean }),
    ...(opening.length === 0 ? {} : { opening }),
    ...(peak === undefined || valve === undefined ? {} : { flow_per_valve_area_m_s: peak.flow / valve }),
    ...(peak === undefined || pinch === undefined ? {} : { pinch_share_of_ideal: peak.flow / (pinch * ideal[side]) }),
    ...shapeFigures(sweep, diameter, pressureRatio),
    cylinders,
    ...(spread === undefined ? {} : { cylinder_spread: spread }),
    ...(good.length === 0 ? {} : { conversion_pressure_ratio: pressureRatio }),
  };
}

/** What the curve does after its peak and below it; nothing where the square-root rule has bent it. */
function shapeFigures(sweep: Sweep, diameter: Metres | undefined, pressureRatio: number): Partial<SideFigures> {
  const { good } = sweep;
  if (pressureRatio > SHAPE_RATIO || good.length === 0) return {};
  const meets: RangeRule = (ranges) => isAccuracyUnknown(ranges, sweep, sweep);
  return omitUndefined({
    after_peak: afterPeak(good, meets),
    holds: plateau(good, meets),
    flat_spots: flatSpots(good, diameter, meets),
  });
}

function meanFigures({ good, curve }: Sweep, range: SideBasis["range"]): SideFigures["mean_flow"] {
  if (curve === undefined || range === undefined) return undefined;
  const flow = meanFlow(curve, range.from, range.to);
  if (flow === undefined) return undefined;
  const terms = curveTerms({ good }, (one) => meanFlow(one, range.from, range.to));
  return {
    from_lift_m: range.from,
    to_lift_m: range.to,
    flow_m3_s: flow,
    ...uncertaintyFigures(terms && combine(terms)),
  };
}

/** Largest ratio, either way, between reference and test pressure among the readings. */
function conversionRatio(sweep: Sweep, reference: number): number {
  const ratios = sweep.good.map(({ convertedFrom = reference }) =>
    Math.max(convertedFrom / reference, reference / convertedFrom),
  );
  return Math.max(1, ...ratios);
}
