import type { Model, Side, Stage } from "../../model/model.ts";
import type { Metres } from "../../units/quantity.ts";
import { omitUndefined } from "../../util/omit-undefined.ts";
import { comparedFlows } from "../comparison/compared-flows.ts";
import { isAccuracyUnknown } from "../comparison/flow-change.ts";
import { camMeanFlow } from "../engine/cam-mean-flow.ts";
import { openingFlow } from "../engine/opening-flow.ts";
import type { PortToPort, SetSideFigures, SideFigures } from "../figures.ts";
import { meanPortArea, portVolume, usablePinch, valveArea, valveDiameter } from "../geometry/port-geometry.ts";
import type { LiftRange } from "../math/lifts.ts";
import { meanFlow } from "../math/pchip.ts";
import { combine, uncertaintyFigures } from "../math/uncertainty.ts";
import { excludedReadings } from "../sweep/excluded-readings.ts";
import { measuredPorts } from "../sweep/full-ports.ts";
import { cylinderOfPort, handOfPort } from "../sweep/point.ts";
import { narrowSweep, type Sweep } from "../sweep/sweep.ts";
import { curveTerms } from "../sweep/sweep-uncertainty.ts";
import { typedReadings } from "../sweep/typed-readings.ts";
import { flowBands } from "./bands.ts";
import { curvePoints } from "./curve-points.ts";
import { afterPeak, peakReading, plateau, type RangeRule } from "./curve-shape.ts";
import { flatSpots } from "./flat-spots.ts";
import { cylinderFigures, portToPort } from "./port-to-port.ts";
import { type IdealFlow, readingFigures } from "./reading-figures.ts";
import type { ReportLift } from "./report-lifts.ts";

/** Beyond this ratio of pressures the shape of a converted curve is not reported. */
const SHAPE_RATIO = 1.5;

/** Values that the stages of a job share on one side. */
export type SideBasis = {
  readonly range?: LiftRange;
  /** Ports that are in the curves of all stages, over which means are taken; left out, those of each curve. */
  readonly ports?: readonly string[];
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
      ? { readings: [], typed: [], left_out: [], curve: [], compared: [], bands: {}, cylinders: [] }
      : sweepFigures(model, stage, sweep, side, basis)),
    ...(sweep?.good.length ? sourceFigures(sweep) : {}),
  };
}

function sweepFigures(model: Model, stage: Stage, sweep: Sweep, side: Side, basis: SideBasis) {
  const own = setSideFigures(sweep, stage, side, basis.ideal);
  return { ...own, ...flowFigures(model, stage, sweep, side, basis, own.port_to_port) };
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
 * Readings, peak, port to port and curve of any set on one side, leading or not.
 *
 *     see each part
 *
 * @param sweep  the set's sweep
 * @param stage  the stage
 * @param side   intake or exhaust
 * @param ideal  ideal flow per area of both sides [m/s]
 * @returns      the figures; without a peak where nothing good was read
 * @example      setSideFigures({ shown: [], good: [], ports: [], points: [], source: { side: "intake", set: { runs: [] } } }, { ports: {} }, "intake", {}) // { readings: [], typed: [], left_out: [], curve: [] }
 */
export function setSideFigures(sweep: Sweep, stage: Stage, side: Side, ideal: IdealFlow): SetSideFigures {
  const hand = handOfPort(sweep.ports[0] ?? "");
  const evenness = portToPort(sweep);
  return {
    ...(hand === "" ? {} : { hand }),
    readings: sweep.shown.map((reading) => readingFigures(reading, stage.ports[side], ideal[side])),
    typed: typedReadings(sweep),
    left_out: excludedReadings(sweep),
    ...peakFigures(sweep),
    ...(evenness === undefined ? {} : { port_to_port: evenness }),
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

/** Ports flowed, of all that the engine or the heads have. */
function flowedCylinders(model: Model, stage: Stage, side: Side, sweep: Sweep | undefined): SideFigures["flowed"] {
  const ports = measuredPorts(sweep?.points ?? []);
  const cylinders = [...new Set(ports.map(cylinderOfPort))].sort((a, b) => a - b);
  const listed = model.text.heads.reduce((sum, head) => sum + head.cylinders.length, 0);
  const engine = listed > 0 ? listed : model.engine?.cylinders;
  const { ports: each = 1, feeds = 1 } = stage.ports[side] ?? {};
  const of = engine === undefined ? undefined : Math.round((engine * each) / feeds);
  return { cylinders, n: ports.length, ...(of === undefined ? {} : { of }) };
}

function flowFigures(
  model: Model,
  stage: Stage,
  sweep: Sweep,
  side: Side,
  basis: SideBasis,
  evenness: PortToPort | undefined,
) {
  const { lifts, ideal } = basis;
  const { good, curve } = sweep;
  const port = stage.ports[side];
  const diameter = port === undefined ? undefined : valveDiameter(port);
  const valve = port === undefined ? undefined : valveArea(port);
  const pinch = port === undefined ? undefined : usablePinch(port);
  const peak = peakReading(good);
  const pressureRatio = conversionRatio(sweep, model.reference.testPressure);
  const cam = model.engine?.cams[side];
  const camMean = cam === undefined || curve === undefined ? undefined : camMeanFlow(curve, cam);
  const opening = cam === undefined || curve === undefined ? [] : openingFlow(curve, cam);
  const mean = meanFigures(sweep, basis);
  return {
    compared: comparedFlows(sweep, lifts),
    ...(mean === undefined ? {} : { mean_flow: mean }),
    bands: curve === undefined || diameter === undefined ? {} : flowBands(curve, diameter),
    ...(camMean === undefined ? {} : { cam_mean_flow_m3_s: camMean }),
    ...(opening.length === 0 ? {} : { opening }),
    ...(peak === undefined || valve === undefined ? {} : { flow_per_valve_area_m_s: peak.flow / valve }),
    ...(peak === undefined || pinch === undefined ? {} : { pinch_share_of_ideal: peak.flow / (pinch * ideal[side]) }),
    ...shapeFigures(sweep, diameter, pressureRatio),
    cylinders: cylinderFigures(sweep, evenness),
    ...(evenness?.spread_ratio === undefined ? {} : { cylinder_spread: evenness.spread_ratio }),
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

function meanFigures(sweep: Sweep, { range, ports = sweep.ports }: SideBasis): SideFigures["mean_flow"] {
  const { good, curve } = narrowSweep(sweep, ports);
  if (curve === undefined || range === undefined) return undefined;
  const flow = meanFlow(curve, range.from, range.to);
  if (flow === undefined) return undefined;
  const terms = curveTerms({ good }, (one) => meanFlow(one, range.from, range.to));
  return {
    cylinders: [...new Set(ports.map(cylinderOfPort))],
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
