import { both, EXHAUST, INTAKE, job, run, SURE, stage, table, times } from "./small-job.ts";

/** A job made so that a careless tool would claim something, and what an honest sheet says in its place. */
export type Lie = {
  readonly lie: string;
  readonly job: string;
  /** Beside /shop/a.yaml. */
  readonly files?: Readonly<Record<string, string>>;
  /** Stands on the sheet. */
  readonly said: readonly string[];
  /** Stands nowhere on it. */
  readonly absent: readonly RegExp[];
  /** Stands not on the customer's side: side 1 of a handover, and an attachment. */
  readonly absentOnSide1?: readonly RegExp[];
  /** Told to the porter. */
  readonly told?: readonly string[];
};

const GAIN = /clear gain/i;
const LOSS = /clear loss/i;
const HIGHER = /clearly higher/i;
const HIGHER_ON_AVERAGE = /clearly (higher|lower) on average/i;
const TWENTIETHS = [0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5];
const CHANGED = /\d % (up|down)/;

const up = times(INTAKE, 1.06);
const intake = (flows: typeof INTAKE, lifts?: readonly number[]) => table({ intake: flows }, lifts);
const exhaust = (flows: typeof INTAKE) => table({ exhaust: flows });
type More = {
  readonly top?: readonly string[];
  readonly before?: readonly string[];
  readonly after?: readonly string[];
  readonly bench?: string;
};
const pair = (from: string, to: string, { top, before, after, bench }: More = {}) =>
  job([stage("As received", from, before), stage("Finished", to, after)], top, bench);
const onBench = (more: string): More => ({ after: [`bench: { ${more} }`] });
const cam = (lift: number) =>
  `engine: { cylinders: 4, intake_cam: { net_lift: ${lift}, duration: 240 deg, at: 0.05, of: valve } }`;

const unlike = (lie: string, from: string, to: string, more: string, difference: string): Lie => {
  const side = from.includes("intake") ? "Intake" : "Exhaust";
  return {
    lie,
    job: pair(from, to, onBench(more)),
    said: [
      "on average; conditions differ, so no verdict is given.",
      `${side}: conditions differ, so this is not like for like.`,
      difference,
    ],
    absent: [GAIN, HIGHER, CHANGED],
  };
};

const other = `job: "70"
issued: 2026-01-10
customer: { name: Somebody else }
head: { name: Other head }
units: { length: in, flow: cfm, pressure: inH2O }
bench: { ${SURE} }
may_compare: yes
stages:
${stage("Finished", intake(times(INTAKE, 0.9)))}
`;
const sample = (ticket: string, factor: number) =>
  other.replace('"70"', `"${ticket}"`).replace(intake(times(INTAKE, 0.9)), intake(times(INTAKE, factor)));

const VALVES =
  "intake: { valve: 1.7, stem: 0.315, throat: 1.4 }\n    exhaust: { valve: 1.4, stem: 0.315, throat: 1.2 }";
const NOT_COMPARED = (side: string) =>
  `${side}: not compared: in one stage the exhaust flows more than the intake and in the other less, as if two columns of readings were swapped.`;

const NO_CHANGE = "Intake flow did not clearly change: any change of the average is smaller than";
const ENGINE =
  "engine: { cylinders: 4, bore: 3.4, stroke: 3.05, gasket: { bore: 3.46, compressed: 0.045 }, piston: { dome: 4 cc, below_deck: 0.02 } }";

export const LIES: readonly Lie[] = [
  {
    lie: "noise: the same port flowed twice",
    job: pair(intake(INTAKE), intake(times(INTAKE, 1.006))),
    said: [NO_CHANGE],
    absent: [GAIN, HIGHER, CHANGED],
  },
  {
    lie: "one reading a stage and no repeatability stated",
    job: pair(intake(INTAKE), intake(up), { bench: "test_pressure: 28" }),
    said: [
      "Intake: flowed once each time: not judged.",
      "Repeatability was neither measured nor stated, so no change is claimed.",
    ],
    absent: [GAIN, HIGHER, CHANGED],
  },
  {
    lie: "the head came off in between, and nobody said what that adds",
    job: pair(intake(INTAKE), intake(up), { bench: "test_pressure: 28, repeatability: 0.6 %" }),
    said: ["Taking the head off and on adds ± 2.0 %: allowed for, not measured here."],
    absent: [/leaves out/],
  },
  {
    lie: "a gain of 1.5 % on a bench that never measured what taking the head off and on adds",
    job: pair(intake(INTAKE), intake(times(INTAKE, 1.015)), { bench: "test_pressure: 28, repeatability: 0.2 %" }),
    said: [NO_CHANGE],
    absent: [GAIN, HIGHER, CHANGED],
  },
  {
    lie: "one lift of ten beyond its ±, by chance",
    job: pair(
      intake([20, 42, 63, 83, 102, 120, 134, 145, 153, 158], TWENTIETHS),
      intake([20, 42, 63, 83, 102, 122.2, 134, 145, 153, 158], TWENTIETHS),
      { bench: "test_pressure: 28, repeatability: 0.8 %, remount: 0.6 %" },
    ),
    said: [NO_CHANGE, "Intake: 1 lift beyond its ± is not claimed; of many, one may be so by chance."],
    absent: [GAIN, HIGHER, CHANGED],
  },
  {
    lie: "another head, higher at low lift and lower at high lift, that an average makes equal",
    job: pair(both(INTAKE), both([45, 88, 120, 138, 149]), {
      top: ["compare: [ { job: 70.yaml, label: Our other casting } ]"],
    }),
    files: { "/shop/70.yaml": other.replace(intake(times(INTAKE, 0.9)), both(INTAKE)) },
    said: ["Intake: clearly higher up to 0.200 in, clearly lower from 0.400 in."],
    absent: [HIGHER_ON_AVERAGE],
  },
  {
    ...unlike(
      "another test pressure",
      intake(INTAKE),
      intake(times(up, 0.6)),
      "test_pressure: 10",
      "Test pressure 28.0 inH₂O against 10.0 inH₂O.",
    ),
  },
  unlike(
    "a pipe on the exhaust",
    exhaust(EXHAUST),
    exhaust(times(EXHAUST, 1.1)),
    "exhaust_pipe: { diameter: 1.75, length: 8 }",
    "Exhaust pipe none against 1.75 in × 8 in.",
  ),
  unlike(
    "a larger bore under the head",
    intake(INTAKE),
    intake(up),
    "bore_fixture: 3.8",
    "Bore fixture 3.400 in against 3.800 in.",
  ),
  unlike(
    "a radius at the entry",
    intake(INTAKE),
    intake(up),
    "intake_entry: long horn",
    "Entry clay radius against long horn.",
  ),
  unlike(
    "a manifold taken off",
    intake(INTAKE),
    intake(up),
    "attached: { intake: manifold }",
    "On the intake none stated against manifold.",
  ),
  {
    // Both state how exact they are, so it may be judged; but the port gained nothing that one bench has shown.
    ...unlike("another bench", intake(INTAKE), intake(up), "name: Bench 2", "Bench Bench 1 against Bench 2."),
    said: [
      "Intake flow is clearly higher on average.",
      "Intake: conditions differ, so this is not like for like.",
      "Bench Bench 1 against Bench 2.",
    ],
    absent: [GAIN, CHANGED],
  },
  {
    ...unlike(
      "leakage taken off before, not after",
      intake(INTAKE),
      intake(INTAKE),
      "",
      "Leakage taken off against not taken off.",
    ),
    job: pair(intake(INTAKE), intake(INTAKE.map((flow) => `${flow}.1`)), {
      before: ["bench: { leakage: { intake: 4 } }"],
    }),
  },
  {
    lie: "two benches, and nobody said how far they agree",
    job: pair(intake(INTAKE), intake(up), {
      ...onBench("name: Bench 2"),
      bench: SURE.replace("accuracy: 1.5 %, ", ""),
    }),
    said: [
      "Intake: flowed on two benches whose accuracy is not stated, so no verdict is given.",
      "Bench Bench 1 against Bench 2.",
    ],
    absent: [GAIN, HIGHER, CHANGED],
  },
  {
    // Volume through an opening goes with 1 ÷ √ρ: from 50 to 95 °F it reads √(308.15 ÷ 283.15) = 1.043 times as much.
    lie: "warmer air on a meter that shows volume",
    job: pair(intake(INTAKE), intake(times(INTAKE, 1.0432)), {
      bench: `${SURE}, meter: volumetric`,
      before: ["bench: { air: { temperature: 50, pressure: 29.92 inHg, humidity: 0 % } }"],
      after: ["bench: { air: { temperature: 95, pressure: 29.92 inHg, humidity: 0 % } }"],
    }),
    said: [NO_CHANGE, "Its meter shows volume; we brought it to reference air by density."],
    absent: [GAIN, HIGHER, CHANGED],
  },
  {
    lie: "the two columns swapped after the work",
    job: pair(both(INTAKE), table({ exhaust: up, intake: EXHAUST }), { before: [VALVES] }),
    said: [NOT_COMPARED("Intake"), NOT_COMPARED("Exhaust")],
    absent: [GAIN, LOSS, HIGHER, CHANGED],
    told: ["figures/columns-swapped"],
  },
  {
    lie: "the two columns swapped before the work, and no valve typed that would tell",
    job: pair(table({ exhaust: INTAKE, intake: EXHAUST }), both(up, times(EXHAUST, 1.03))),
    said: [NOT_COMPARED("Intake"), NOT_COMPARED("Exhaust")],
    absent: [GAIN, LOSS, HIGHER, CHANGED],
    told: ["figures/columns-swapped"],
  },
  {
    lie: "the two columns swapped on a head whose sides flow almost alike",
    job: pair(both(INTAKE, times(INTAKE, 0.94)), table({ exhaust: up, intake: times(INTAKE, 0.95) }), {
      before: [VALVES],
    }),
    said: [NOT_COMPARED("Intake"), NOT_COMPARED("Exhaust")],
    absent: [GAIN, LOSS, HIGHER, CHANGED],
    told: ["figures/columns-swapped"],
  },
  {
    lie: "the two columns swapped in the middle of three stages",
    job: job([
      stage("As received", both(INTAKE), [VALVES]),
      stage("Roughed", table({ exhaust: up, intake: EXHAUST })),
      stage("Finished", both(times(INTAKE, 1.004))),
    ]),
    said: [NO_CHANGE],
    absent: [GAIN, LOSS, HIGHER, CHANGED],
    told: ["figures/columns-swapped"],
  },
  {
    lie: "another head whose columns are swapped",
    job: pair(both(INTAKE), both(times(INTAKE, 1.004)), {
      top: ["compare: [ { job: 70.yaml, label: Our better casting } ]"],
    }),
    files: {
      "/shop/70.yaml": other.replace(intake(times(INTAKE, 0.9)), table({ exhaust: INTAKE, intake: EXHAUST })),
    },
    said: [NO_CHANGE, NOT_COMPARED("Our better casting")],
    absent: [GAIN, HIGHER, CHANGED],
    told: ["figures/columns-swapped"],
  },
  {
    lie: "an exhaust worked so far that it passes the intake: no columns were swapped, and the gain is told",
    job: pair(both(INTAKE, times(INTAKE, 0.96)), both(INTAKE, times(INTAKE, 1.05))),
    said: ["Exhaust flow: 9.4 % up"],
    absent: [/not compared/],
  },
  {
    lie: "a doubtful reading that carries the gain",
    job: pair(intake(INTAKE), intake([42, 83, 120, 145, "190?"])),
    said: [NO_CHANGE, "? Doubtful: shown, not used."],
    absent: [GAIN, HIGHER, CHANGED, /\+32/],
  },
  {
    lie: "a reading struck out that carries the gain",
    job: pair(intake(INTAKE), intake([42, 83, 120, 145, "~190   # gauge stuck"])),
    said: [NO_CHANGE, "Finished, intake at 0.500 in: struck out (gauge stuck)."],
    absent: [GAIN, HIGHER, CHANGED, /190/],
  },
  {
    lie: "one unsteady reading that carries the average",
    job: pair(intake(INTAKE), intake([42, 83, "130!", 145, 158])),
    said: ["Intake flow: no change of the average is claimed.", "! Unsteady: used."],
    absent: [CHANGED, /a clear gain/],
  },
  {
    lie: "readings left out before the work, where the curve bows most",
    job: pair(intake([42, "-", "-", "-", 158]), intake(INTAKE)),
    said: ["Average: from 0.100 in", "to 0.500"],
    absent: [/a clear gain/, CHANGED],
  },
  {
    lie: "a lift asked for, in a gap of one stage",
    job: pair(intake([42, "-", "-", "-", 158]), intake(INTAKE), { top: ["report: { lifts: [0.3 in] }"] }),
    said: ["was 108.5"],
    absent: [/a clear gain/, CHANGED, /108\.5.{0,60}clear gain/],
  },
  {
    lie: "a gain beyond the cam's lift only",
    job: pair(
      intake([...INTAKE, 163], [0.1, 0.2, 0.3, 0.4, 0.5, 0.6]),
      intake([42, 83, 120, 145, 172, 190], [0.1, 0.2, 0.3, 0.4, 0.5, 0.6]),
      { top: [cam(0.4)] },
    ),
    said: [
      NO_CHANGE,
      "Average: from 0.100 in",
      "to 0.400",
      "peak, beyond",
      "Intake peak: 190.0 cfm at 0.600 in, beyond your cam.",
    ],
    absent: [/a clear gain/, CHANGED],
    absentOnSide1: [/190\.0/, GAIN],
  },
  {
    lie: "a gain only where the stage before has no readings",
    job: pair(
      intake(INTAKE.slice(0, 4), [0.1, 0.2, 0.3, 0.4]),
      intake([42, 83, 120, 145, 180, 200], [0.1, 0.2, 0.3, 0.4, 0.5, 0.6]),
    ),
    said: [NO_CHANGE, "Average: from 0.100 in", "to 0.400"],
    absent: [GAIN, HIGHER, CHANGED],
  },
  {
    lie: "a baseline that, measured again, moved as far as the gain",
    job: job([
      stage("As received", intake(INTAKE)),
      stage("Again", intake(times(INTAKE, 1.07)), ["repeats: As received"]),
      stage("Finished", intake(up)),
    ]),
    said: [NO_CHANGE, "Intake: measured again without work, it moved 7.0 %; no gain is claimed below that."],
    absent: [GAIN, HIGHER, CHANGED],
  },
  {
    lie: "a larger valve over a throat and a pinch that nobody measured again",
    job: pair(intake(INTAKE), intake(up), {
      before: [
        "intake: { valve: 1.7, stem: 0.315, throat: 1.4, pinch: 1.6, port_volume: 110, port_length: 4, seat: { angle: 45 deg, width: 0.05 } }",
      ],
      after: ["intake: { valve: 1.8 }"],
      top: [
        "work: { Intake ports: [ Larger valve fitted ] }",
        "engine: { cylinders: 4, bore: 3.4, stroke: 3.05, rod_length: 5.4, rpm: { from: 3000, to: 7000 } }",
      ],
    }),
    said: ["Not re-measured: throat 1.400"],
    // Throat and pinch as shares of the new valve; mean area from the old volume.
    absent: [/77\.8/, /62\.9/, /gas speed at the pinch reaches/i],
    told: ["model/stale-dimension"],
  },
  {
    lie: "another head, labelled better than it may be called",
    job: pair(intake(INTAKE), intake(times(INTAKE, 1.004)), {
      top: ["compare: [ { job: 70.yaml, label: Our better casting } ]"],
    }),
    files: { "/shop/70.yaml": other },
    said: [NO_CHANGE, "Our better casting", "clearly higher"],
    absent: [GAIN, CHANGED, /Somebody else/],
  },
  {
    lie: "two parts called typical",
    job: `product: { part: "P 1", name: Sold often, revision: A }
issued: 2026-03-18
units: { length: in, flow: cfm, pressure: inH2O }
bench: { test_pressure: 28 }
samples: [ 71.yaml, 72.yaml ]
`,
    files: { "/shop/71.yaml": sample("71", 1), "/shop/72.yaml": sample("72", 1.02) },
    said: ["Measured on 2 parts"],
    absent: [/typical of/i, GAIN],
  },
  {
    lie: "compression claimed from a chamber measured before the work",
    job: pair(intake(INTAKE), intake(INTAKE.map((flow) => `${flow}.1`)), {
      top: [ENGINE, "work: { Deck: [ Deck cut 0.030 in ] }"],
      before: ["chamber: 52"],
      after: ["deck: { cut: 0.030 }"],
    }),
    said: [
      "Chamber, finished",
      "not re-measured",
      "Compression, as received",
      "calculated, with the gasket and piston stated by the customer",
    ],
    absent: [/: 1, was/, /Compression, finished/],
  },
  {
    // 66.7 % of 180 cfm, then 75 % of 160 cfm: the same 120 cfm, and an eighth more on the dial.
    lie: "per cent of another range",
    job: pair(
      table({ intake: [23.3, 46.1, 66.7, 80.6, 87.8], range: ["4", "4", "4", "4", "4"] }),
      table({ intake: [26.2, 51.9, 75.0, 90.6, 98.8], range: ["3", "3", "3", "3", "3"] }),
      {
        bench: `${SURE}, reads: percent, ranges: { "3": { intake: 160 cfm }, "4": { intake: 180 cfm } }`,
      },
    ),
    said: [NO_CHANGE, "The bench reads percent of a range; we turned that into flow."],
    absent: [GAIN, HIGHER, CHANGED],
  },
  {
    lie: "the shape of a curve that was converted a long way in pressure",
    job: pair(intake(times(INTAKE, 0.6)), intake([...times(up, 0.6), "88"], [0.1, 0.2, 0.3, 0.4, 0.5, 0.6]), {
      bench: SURE.replace("test_pressure: 28", "test_pressure: 10"),
    }),
    said: [
      "Converted from 10 inH₂O by the square-root rule.",
      "Flow is reported at 28 inH₂O, converted by the square-root rule.",
    ],
    absent: [/falls away/, /holds from/, /flat spot at/],
  },
  {
    lie: "an average that hides a loss at low lift",
    job: pair(intake(INTAKE), intake([36, 79, 128, 160, 176]), { top: [cam(0.42)] }),
    said: ["on average, a clear gain.", "Intake at 0.100 and 0.200 in: a clear loss."],
    absent: [],
  },
  {
    lie: "an average that stands still over a loss at low lift",
    job: pair(intake(INTAKE), intake([38, 77, 120, 148, 162])),
    said: [NO_CHANGE, "Intake at 0.100 and 0.200 in: a clear loss."],
    absent: [/a clear gain/, CHANGED],
  },
  {
    lie: "horsepower on the customer's side",
    job: pair(intake(INTAKE), intake(up), {
      top: ["engine: { cylinders: 4 }", "report: { power_per_flow: 0.257 hp/cfm }"],
    }),
    said: ["Air for at most about", "(rule of thumb, bare head)"],
    absent: [/makes \d+ hp/i, /horsepower/i],
    absentOnSide1: [/\bhp\b/, /\bkW\b/, /Air for at most/],
  },
  {
    lie: "cylinder 1 before, cylinder 3 after",
    job: job([
      stage("As received", undefined, run(1, intake(INTAKE))),
      stage("Finished", undefined, run(3, intake(up))),
    ]),
    said: ["Intake: not compared: no port was flowed in both."],
    absent: [GAIN, HIGHER, CHANGED, /Too few repeats to say what changed/],
  },
  {
    lie: "one port that speaks for eight",
    job: pair(intake(INTAKE), intake(up), { top: ["engine: { cylinders: 8 }"] }),
    said: ["flowed 1 of 8 ports"],
    absent: [/all (eight|8|ports)/i, /each port/i],
  },
  {
    lie: "a bench whose own check plate was off",
    job: pair(intake(INTAKE), intake(up), { bench: `${SURE}, check_plate: { nominal: 150, before: 150, after: 155 }` }),
    said: ["Intake: the bench's check plate was more than 2 % off, so no verdict is given."],
    absent: [GAIN, HIGHER, CHANGED],
  },
];
