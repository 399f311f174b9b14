import type { Model, Port, ValveTrainRow } from "../../src/model/model.ts";
import {
  cubicMetres,
  kelvin,
  newtons,
  newtonsPerMetre,
  pascals,
  radians,
  ratio,
  rpm,
  type WattsPerFlow,
} from "../../src/units/quantity.ts";
import { cfm, describedPort, inches, inchesOfWater, modelOf, type Row, type StageSketch } from "./model-fixture.ts";

/** A job that states everything from which a figure is made, once: two sides, stages, sets, cylinders, another head, samples. */
export function statedModel(): Model {
  const rows = (by: number): Row[] => [
    [0.1, 45 * by, 37 * by],
    [0.3, `${124 * by}!`, 95 * by, 25],
    [0.4, "~99", "108?"],
    [0.5, 150 * by, "-"],
  ];
  const port = (valve: number): Partial<Port> => {
    const size = { valve, stem: 8, throat: 0.86 * valve, seatWidth: 1.5, pinch: 830, volume: 100, length: 100 };
    const { seat, ...rest } = describedPort(size);
    return { ...rest, seat: { ...seat!, outside: inches((valve - 0.5) / 25.4) } };
  };
  const stage = (name: string, by: number): StageSketch => ({
    name,
    date: "2026-03-18",
    intake: port(44),
    exhaust: port(38),
    chambers: [43, 43.2],
    deckCut: 0.01,
    sets: [
      {
        name: "bare",
        runs: [
          { rows: rows(by) },
          { cylinder: 5, mount: 2, rows: rows(1.004 * by) },
          { cylinder: 3, hand: "end", rows: rows(1.004 * by) },
        ],
      },
      { name: "with pipe", bench: { attached: { exhaust: "pipe" } }, runs: [{ rows: rows(1.02 * by) }] },
    ],
  });
  const model = modelOf({
    lifts: "in",
    bench: {
      name: "One",
      meter: "volumetric",
      air: { temperature: kelvin(298), pressure: pascals(99000), relativeHumidity: ratio(0.4) },
      leakage: { intake: cfm(0.4), exhaust: cfm(0.3), testPressure: inchesOfWater(25) },
      boreFixture: inches(3.45),
      intakeEntry: "clay radius",
      exhaustPipe: { diameter: inches(1.5), length: inches(6) },
      attached: { intake: "none", exhaust: "none" },
      accuracy: ratio(0.015),
      repeatability: { kind: "range", spread: ratio(0.012), of: 5 },
      remount: ratio(0.014),
      resolution: cfm(0.1),
      checkPlate: { nominal: cfm(150), before: cfm(149), after: cfm(151) },
    },
    report: { powerPerFlow: 406000 as WattsPerFlow },
    engine: {
      cylinders: 4,
      bore: inches(3.425),
      stroke: inches(2.953),
      rodLength: inches(5.39),
      gasket: { kind: "volume", volume: cubicMetres(8e-6) },
      piston: { dish: cubicMetres(5e-6), belowDeck: inches(0.02) },
      rpm: { from: rpm(6000), to: rpm(6500) },
      cams: {
        intake: {
          netLift: inches(0.42),
          profile: [0, 1, 2, 3, 4].map((angle, k) => ({
            angle: radians(angle),
            lift: inches([0, 0.3, 0.42, 0.3, 0][k]!),
          })),
        },
        exhaust: { netLift: inches(0.42), duration: radians(4.2), at: inches(0.05) },
      },
    },
    stages: [stage("As received", 1), { ...stage("Again", 1.003), repeats: "As received" }, stage("Finished", 1.06)],
    compared: [{ label: "Standard valves", stage: stage("Finished", 0.97) }],
    samples: [stage("One", 1)],
    text: {
      springs: {
        installedHeight: inches(1.6),
        coilBind: inches(1.02),
        retainerToSeal: inches(0.51),
        openAt: inches(0.43),
        seatForce: newtons(400),
        rate: newtonsPerMetre(40e3),
      },
      valveTrainLimits: { alike: inches(0.005), guide: inches(0.002) },
      heads: [{ id: "A", cylinders: [1, 5] }],
    },
  });
  const [first, ...others] = model.stages;
  const valveTrain: readonly ValveTrainRow[] = [
    {
      cylinder: 1,
      side: "intake",
      letter: "",
      height: inches(1.602),
      shim: inches(0.03),
      tip: inches(1.84),
      drop: inches(0.02),
    },
    {
      cylinder: 1,
      side: "exhaust",
      letter: "",
      guide: inches(0.003),
      runout: inches(0.001),
      seal: inches(0.5),
      vacuum: "held",
    },
  ];
  const last = { ...others.at(-1)!, valveTrain };
  const opened = { ...first!, layout: { bore: inches(3.425), intake: [], exhaust: [] } };
  return { ...model, stages: [opened, ...others.slice(0, -1), last] };
}
