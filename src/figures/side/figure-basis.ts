import type { Model, Side } from "../../model/model.ts";
import { humidAirDensity } from "../air/humid-air-density.ts";
import { idealFlowPerArea } from "../air/ideal-flow.ts";
import { soundSpeed } from "../air/sound-speed.ts";
import type { ReferenceFigures } from "../figures.ts";
import { sharedRange } from "../math/lifts.ts";
import { type AllSweeps, stagesFlowedOn } from "../sweep/read-all-sweeps.ts";
import { narrowSweep } from "../sweep/sweep.ts";
import type { IdealFlow } from "./reading-figures.ts";
import { reportLifts } from "./report-lifts.ts";
import type { SideBasis } from "./side-figures.ts";

/** Common basis of a job's figures: the reference, and for each side the values that its stages share. */
type FigureBasis = {
  readonly reference: ReferenceFigures;
  readonly bases: Readonly<Record<Side, SideBasis>>;
};

/**
 * Common basis of a job's figures.
 *
 *     reference, range and report lifts
 *
 * @param model   the model
 * @param stages  its own stages with their sweeps
 * @returns       the basis
 * @example       computeBasis({ report: { lifts: [] }, reference: { testPressure: 6974.489, air: { temperature: 293.15, pressure: 101325, relativeHumidity: 0 } } }, []).reference.test_pressure_Pa // 6974.489
 */
export function computeBasis(model: Model, stages: AllSweeps["stages"]): FigureBasis {
  const reference = referenceFigures(model);
  const ideal = reference.ideal_flow_per_area_m_s;
  const bases = {
    intake: sideBasis(model, stages, "intake", ideal),
    exhaust: sideBasis(model, stages, "exhaust", ideal),
  };
  return { reference, bases };
}

function referenceFigures({ reference }: Model): ReferenceFigures {
  const { testPressure, air } = reference;
  return {
    test_pressure_Pa: testPressure,
    air: {
      temperature_K: air.temperature,
      pressure_Pa: air.pressure,
      relative_humidity: air.relativeHumidity,
      density_kg_m3: humidAirDensity(air.temperature, air.pressure, air.relativeHumidity),
      sound_speed_m_s: soundSpeed(air.temperature),
    },
    ideal_flow_per_area_m_s: {
      intake: idealFlowPerArea("intake", testPressure, air),
      exhaust: idealFlowPerArea("exhaust", testPressure, air),
    },
  };
}

function sideBasis(model: Model, stages: AllSweeps["stages"], side: Side, ideal: IdealFlow): SideBasis {
  const sweeps = stagesFlowedOn(stages, side).flatMap((one) => one[side] ?? []);
  const [first, ...others] = sweeps.map(({ ports }) => ports);
  const ports = (first ?? []).filter((port) => others.every((list) => list.includes(port)));
  const lists = sweeps.map((sweep) => narrowSweep(sweep, ports).good.map((reading) => reading.lift));
  const range = sharedRange(lists, model.engine?.cams[side]?.netLift);
  return { ideal, ports, lifts: reportLifts(model, side, sweeps), ...(range === undefined ? {} : { range }) };
}
