import { MACH_INDEX_LIMIT, PINCH_BAND } from "../../model/constants.ts";
import type { Engine, Model, Port } from "../../model/model.ts";
import {
  metresPerSecond,
  type Rpm,
  rpm,
  squareMetres,
  type Watts,
  type WattsPerFlow,
  watts,
} from "../../units/quantity.ts";
import { gasSpeed, soundSpeed } from "../air/sound-speed.ts";
import { MEAN_MACH_MARK, NO_FLOW, POWER_TEST_PRESSURE } from "../constants.ts";
import type { EngineFigures } from "../figures.ts";
import { usablePinch } from "../geometry/port-geometry.ts";
import { peakReading } from "../side/curve-shape.ts";
import type { Sweep } from "../sweep/sweep.ts";
import { camMeanFlow } from "./cam-mean-flow.ts";
import { inletMachIndex, machIndexRpm } from "./inlet-mach-index.ts";
import { camOpenPeriod, meanInletMach } from "./mean-inlet-mach.ts";
import { pinchLimitRpm, pinchSpeed } from "./pinch-speed.ts";
import { meanPistonSpeed } from "./piston-speed.ts";

/**
 * Engine figures from a stage's intake and the engine as the customer stated it. A figure is absent or empty without its
 * inputs.
 *
 *     pinch speeds, inlet Mach index, piston speeds, air for at most about so much power
 *
 * @param model   engine, report and reference
 * @param port    the stage's intake port, if described
 * @param sweep   the stage's leading intake sweep, if flowed
 * @param ideal   ideal intake flow per area [m/s]
 * @returns       the figures, or undefined without an engine
 * @example       engineFigures({}, undefined, undefined, 103) // undefined
 */
export function engineFigures(
  model: Model,
  port: Port | undefined,
  sweep: Sweep | undefined,
  ideal: number,
): EngineFigures | undefined {
  const { engine } = model;
  if (engine === undefined) return undefined;
  const grid = engine.rpm === undefined ? [] : speedGrid(engine.rpm.from, engine.rpm.to);
  return {
    ...pinchFigures(model, engine, port, grid),
    ...machIndexFigures(model, engine, port, sweep, ideal, grid),
    mean_piston_speed: grid.flatMap((speed) =>
      engine.stroke === undefined ? [] : [{ rpm: speed, velocity_m_s: meanPistonSpeed(engine.stroke, speed) }],
    ),
    ...powerFigure(model, engine, port, sweep),
  };
}

function pinchFigures(model: Model, { bore, stroke, rodLength }: Engine, port: Port | undefined, grid: readonly Rpm[]) {
  const one = port === undefined ? undefined : usablePinch(port);
  if (port === undefined || one === undefined || bore === undefined || stroke === undefined)
    return { pinch_velocity: [] };
  if (rodLength === undefined || !(rodLength > stroke / 2)) return { pinch_velocity: [] };
  const pinch = squareMetres(one * port.ports);
  const sound = soundSpeed(model.reference.air.temperature);
  const reached = (velocity: number) => pinchLimitRpm(bore, stroke, rodLength, pinch, metresPerSecond(velocity));
  return {
    pinch_limit_rpm: reached(gasSpeed(model.report.pinchLimit, sound)),
    pinch_band_rpm: { low: reached(PINCH_BAND.low * sound), high: reached(PINCH_BAND.high * sound) },
    pinch_velocity: grid.map((speed) => ({
      rpm: speed,
      velocity_m_s: pinchSpeed(bore, stroke, rodLength, pinch, speed),
    })),
  };
}

function machIndexFigures(
  model: Model,
  { bore, stroke, cams }: Engine,
  port: Port | undefined,
  sweep: Sweep | undefined,
  ideal: number,
  grid: readonly Rpm[],
) {
  const cam = cams.intake;
  const mean = cam === undefined || sweep?.curve === undefined ? undefined : camMeanFlow(sweep.curve, cam);
  if (cam === undefined || mean === undefined || !(mean > NO_FLOW) || bore === undefined || stroke === undefined) {
    return { inlet_mach_index: [] };
  }
  const area = squareMetres((mean / ideal) * (port?.ports ?? 1));
  const sound = soundSpeed(model.reference.air.temperature);
  const index = grid.map((speed) => ({ rpm: speed, z: inletMachIndex(bore, stroke, speed, area, sound) }));
  const period = camOpenPeriod(cam);
  return {
    inlet_mach_index: index,
    ...((cam.profile?.length ?? 0) < 2 ? { inlet_mach_index_from_lift_only: true as const } : {}),
    z_limit_rpm: machIndexRpm(bore, stroke, MACH_INDEX_LIMIT, area, sound),
    ...(period === undefined
      ? {}
      : {
          mean_inlet_mach: index.map(({ rpm: speed, z }) => ({ rpm: speed, m: meanInletMach(z, period) })),
          mean_inlet_mach_rpm: machIndexRpm(bore, stroke, (MEAN_MACH_MARK * period) / Math.PI, area, sound),
        }),
  };
}

function powerFigure(model: Model, engine: Engine, port: Port | undefined, sweep: Sweep | undefined) {
  const { powerPerFlow } = model.report;
  const peak = sweep === undefined ? undefined : peakReading(sweep.good);
  if (powerPerFlow === undefined || engine.cylinders === undefined || peak === undefined) return {};
  const flow = peak.flow * Math.sqrt(POWER_TEST_PRESSURE / model.reference.testPressure);
  return { supported_power_W: supportedPower(powerPerFlow, flow, port?.ports ?? 1, engine.cylinders) };
}

const STEP = 250;

/**
 * Engine speeds of the tables.
 *
 *     from, from + 250, …, to
 *
 * @param from  lowest speed [rpm], 0 or greater
 * @param to    highest speed [rpm], not below `from`
 * @returns     speeds in steps of 250, both ends included; a single one where they are equal, none where they are crossed
 * @source      common practice
 * @example     speedGrid(rpm(2500), rpm(3100)) // [2500, 2750, 3000, 3100]
 */
export function speedGrid(from: Rpm, to: Rpm): Rpm[] {
  if (!(to >= from)) return [];
  const whole = Math.floor((to - from) / STEP);
  const grid = Array.from({ length: whole + 1 }, (_, k) => rpm(from + k * STEP));
  return grid[whole]! < to ? [...grid, to] : grid;
}

/**
 * Power that the air flow supports at most: an upper estimate from a rule of thumb, never a promise.
 *
 *     P = c · Q₂₈ · ports · cylinders
 *
 * @param powerPerFlow  c, power per flow at 28 inH2O [W/(m³/s)], as the shop states it
 * @param flow          peak intake flow of one port at 28 inH2O Q₂₈ [m³/s], 0 or greater
 * @param ports         intake ports that feed one cylinder
 * @param cylinders     cylinders of the engine
 * @returns             P [W]; 0 without flow
 * @source              common practice, quoted at 28 inH2O
 * @example             supportedPower(4e5, 0.1, 1, 4) // 160000
 */
export function supportedPower(powerPerFlow: WattsPerFlow, flow: number, ports: number, cylinders: number): Watts {
  return watts(powerPerFlow * flow * ports * cylinders);
}
