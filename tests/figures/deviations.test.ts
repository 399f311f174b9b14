import { afterAll, describe, expect, test } from "vitest";
import { humidAirDensity } from "../../src/figures/air/humid-air-density.ts";
import { criticalPressureRatio, flowFunction, isentropicMassFlux } from "../../src/figures/air/isentropic-mass-flux.ts";
import { soundSpeed } from "../../src/figures/air/sound-speed.ts";
import { inletMachIndex, machIndexRpm } from "../../src/figures/engine/inlet-mach-index.ts";
import { highestPistonSpeed, meanPistonSpeed, pistonTravel } from "../../src/figures/engine/piston-speed.ts";
import { compressionRatio } from "../../src/figures/geometry/chamber-figures.ts";
import { curtainArea, minimumFlowArea, radialSeatWidth } from "../../src/figures/geometry/valve-areas.ts";
import { pchipSlopes } from "../../src/figures/math/pchip.ts";
import { studentT } from "../../src/figures/math/student-t.ts";
import { combine, type Term } from "../../src/figures/math/uncertainty.ts";
import { readingFigures } from "../../src/figures/side/reading-figures.ts";
import { spreadOf } from "../../src/figures/side/sample-figures.ts";
import { roundedRectangleArea } from "../../src/model/rounded-rectangle-area.ts";
import { fromSi, toSi } from "../../src/units/convert.ts";
import {
  cubicMetres,
  kelvin,
  metres,
  metresPerSecond,
  pascals,
  ratio,
  rpm,
  squareMetres,
} from "../../src/units/quantity.ts";
import type { Kind } from "../../src/units/table.ts";
import { degrees, millimetres, portOf } from "./model-fixture.ts";
import { published } from "./published.ts";
import { curveAt } from "./without-units.ts";

/** What a formula gives, what the reference says, and by how much they may differ, all in the unit of the reference. */
type Row = readonly [computed: number, said: number, allowed: number];
type Entry = {
  readonly formula: string;
  readonly source: string;
  readonly rows: readonly Row[];
  /** How many rows the reference has, so that none is dropped unseen. */
  readonly expected: number;
};

const NINTH = 1e-9;
/** A row computed from the published equation to ten digits. */
const exact = (computed: number, said: number, relative = NINTH): Row => [computed, said, Math.abs(said) * relative];
/** A printed row: half a unit of the last digit printed. */
const printed = (computed: number, said: number, half: number): Row => [computed, said, half * (1 + 1e-6)];
const all = (topic: string, kind: string, of: (row: ReturnType<typeof published>[number]) => readonly Row[]): Row[] =>
  published(topic, kind).flatMap(of);

const infinite = Number.POSITIVE_INFINITY;
const terms = (sizes: readonly number[], dof: readonly (number | null)[]) =>
  sizes.map((u, k): Term => ({ part: "repeats", error: `${k}`, estimate: `${k}`, u, dof: dof[k] ?? infinite }));
const plainUnit: Readonly<Record<string, readonly [Kind, string]>> = {
  "inH2O (conventional)": ["pressure", "inH2O"],
  "inHg (conventional)": ["pressure", "inHg"],
  "ft3/min": ["flow", "cfm"],
  in: ["length", "in"],
  in3: ["volume", "in3"],
  "lbf/in2 (psi)": ["pressure", "psi"],
  "ft/s": ["speed", "ft/s"],
  "hp (550 ft lbf/s)": ["power", "hp"],
};
/** Units of the reference that are SI itself where ours has a multiple of it only. */
const SI = new Set(["m", "m3", "W"]);

const TABLE: readonly Entry[] = [
  {
    formula: "Unit factors (pressure, flow, length, volume, speed, power)",
    source: "NIST SP 811 (2008), B.8; digits as printed",
    expected: 9,
    rows: published("units", "factor").flatMap((row) => {
      const unit = plainUnit[row.unit];
      const decimals = row.printed.split(" E")[0].replaceAll(" ", "").split(".")[1].length;
      const half = 0.5 * 10 ** (Math.floor(Math.log10(row.printed_value)) - decimals);
      const to = SI.has(row.to) ? undefined : workedUnit(row.to);
      if (unit === undefined) return [];
      const si = toSi(1, ...unit);
      return [printed(to === undefined ? si : fromSi(si, ...to), row.printed_value, half)];
    }),
  },
  {
    formula: "Humid-air density ρ",
    source: "CIPM-2007 (Picard et al. 2008)",
    expected: 5,
    rows: all("moist-air", "cipm2007", (row) => [
      exact(humidAirDensity(kelvin(row.t_degC + 273.15), pascals(row.p_Pa), ratio(row.rh)), row.rho_kg_m3),
    ]),
  },
  {
    formula: "Humid-air density ρ, printed",
    source: "Gupta, Mass Metrology, appendix; 5 decimals",
    expected: 1,
    rows: all("moist-air", "cipm2007-published", (row) => [
      printed(
        humidAirDensity(kelvin(row.t_degC + 273.15), pascals(row.p_mmHg * row.mmHg_Pa), ratio(row.rh)),
        row.rho_published_kg_m3,
        0.5e-5,
      ),
    ]),
  },
  {
    formula: "Dry-air volume 1 ÷ ρ",
    source: "ASHRAE Fundamentals (2017), ch. 1, table 2; 4 decimals, perfect gas in part",
    expected: 1,
    rows: all("moist-air", "ashrae-dry-air", (row) => [
      exact(
        1 / humidAirDensity(kelvin(row.t_degC + 273.15), pascals(row.p_Pa), ratio(0)),
        row.published_v_m3_kg,
        row.rel_tol,
      ),
    ]),
  },
  {
    // R is 287.05 here and 287.053 there: 5 parts in a million of it, half of that in the root.
    formula: "Speed of sound a",
    source: "U.S. Standard Atmosphere 1976; 0.01 m/s",
    expected: 5,
    rows: published("standard-atmosphere").flatMap((row) =>
      row.a_m_s === undefined || row.a_m_s === null
        ? []
        : [printed(soundSpeed(kelvin(row.T_K)), row.a_m_s, 0.005 + row.a_m_s * 6e-6)],
    ),
  },
  {
    formula: "Critical pressure ratio, choked flow function",
    source: "Heywood (1988), app. C",
    expected: 2,
    rows: all("compressible-flow", "critical", (row) => [
      exact(criticalPressureRatio(), row.pr_crit),
      exact(flowFunction(0), row.psi_choked),
    ]),
  },
  {
    formula: "Flow function ψ",
    source: "Heywood (1988), eqs C.8–C.9",
    expected: 9,
    rows: all("compressible-flow", "flow-function", (row) => [exact(flowFunction(row.pr, row.gamma), row.psi)]),
  },
  {
    formula: "Isentropic mass flow",
    source: "Heywood (1988), eqs C.8–C.9",
    expected: 4,
    rows: all("compressible-flow", "mass-flow", (row) => {
      const flux = isentropicMassFlux(pascals(row.p0_Pa), pascals(row.pT_Pa), kelvin(row.T0_K));
      return [exact(flux * row.A_ref_m2 * row.Cd, row.mdot_kg_s)];
    }),
  },
  {
    formula: "Area ratio A ÷ A*",
    source: "NACA Report 1135, table I; ten digits",
    expected: 21,
    rows: all("naca1135", "row", (row) => [exact(flowFunction(0) / flowFunction(row.p_pt), row.A_Astar, 3e-8)]),
  },
  {
    formula: "Area ratio A ÷ A*, printed",
    source: "NACA Report 1135, table I, as printed in secondary tables",
    expected: published("naca1135", "row").filter((row) => row.printed?.A_Astar !== undefined).length,
    rows: published("naca1135", "row").flatMap((row) =>
      row.printed?.A_Astar === undefined
        ? []
        : [
            printed(
              flowFunction(0) / flowFunction(row.p_pt),
              row.printed.A_Astar,
              0.5 * 10 ** -decimalsOf(row.printed.A_Astar),
            ),
          ],
    ),
  },
  {
    formula: "Minimum flow area, three stages",
    source: "Heywood (1988), §6.3.2, eqs 6.7–6.9",
    expected: 21,
    rows: all("valve-area", "area", (row) => {
      const angle = degrees(row.seat_deg);
      const seat = {
        outside: millimetres(row.Dv_mm),
        faceWidth: millimetres(row.w_radial_mm / Math.cos(angle)),
        angle,
        throat: millimetres(row.Dp_mm),
        stem: millimetres(row.Ds_mm),
      };
      return [exact(minimumFlowArea(seat, millimetres(row.L_mm)).area * 1e6, row.A_min_mm2)];
    }),
  },
  {
    formula: "Curtain area",
    source: "Heywood (1988), §6.3.2",
    expected: 21,
    rows: all("valve-area", "area", (row) => [
      exact(curtainArea(millimetres(row.Dv_mm), millimetres(row.L_mm)) * 1e6, row.A_curtain_mm2),
    ]),
  },
  {
    formula: "Radial seat width from the width along the face",
    source: "elementary geometry",
    expected: 1,
    rows: all("valve-area", "face-to-radial-width", (row) => [
      exact(radialSeatWidth(millimetres(row.seat_width_along_face_mm), degrees(row.seat_deg)) * 1000, row.w_radial_mm),
    ]),
  },
  {
    formula: "Coefficients on curtain and valve head",
    source: "Heywood (1988), §6.3.2 and app. C",
    expected: 8,
    rows: all("valve-flow", "cd", (row) => {
      const flux = isentropicMassFlux(pascals(row.p0_Pa), pascals(row.p0_Pa - row.dp_Pa), kelvin(row.T0_K));
      const reading = {
        lift: row.L_m,
        flow: row.Q_m3_s,
        ports: ["1"],
        partial: false,
        repeats: 1,
        mounts: 1,
        ranges: [""],
        doubtful: false,
        noisy: false,
      };
      const figures = readingFigures(
        reading,
        portOf({ valves: [{ head: metres(row.Dv_m) }] }),
        flux / row.rho_upstream,
      );
      return [
        exact(figures.curtain_coefficient!, row.Cd_curtain, 1e-8),
        exact(figures.valve_coefficient!, row.Cf_head_area, 1e-8),
      ];
    }),
  },
  {
    formula: "Rounded-rectangle area",
    source: "elementary geometry; 9 digits",
    expected: 1,
    rows: all("engine-geometry", "rounded-rectangle-port", (row) => {
      const [width, height, corner] = [row.width_mm, row.height_mm, row.corner_radius_mm].map(millimetres);
      return [
        exact(roundedRectangleArea({ width: width!, height: height!, corner: corner! }) * 1e6, row.area_mm2, 2e-9),
      ];
    }),
  },
  {
    formula: "Piston travel",
    source: "Heywood (1988), §2.2",
    expected: 7,
    rows: all("engine-geometry", "slider-crank", (row) => {
      const travel = pistonTravel(millimetres(row.stroke_mm), millimetres(row.rod_mm), degrees(row.theta_deg_ATDC));
      return [printed(travel * 1000, row.piston_travel_from_TDC_mm, 1e-8)];
    }),
  },
  {
    formula: "Mean and highest piston speed",
    source: "Heywood (1988), §2.2",
    expected: 3,
    rows: [
      ...all("engine-geometry", "mean-piston-speed", (row) => [
        exact(meanPistonSpeed(millimetres(row.stroke_mm), rpm(row.rpm)), row.Sp_m_s),
      ]),
      ...all("engine-geometry", "max-piston-speed", (row) => [
        exact(
          highestPistonSpeed(millimetres(row.stroke_mm), millimetres(row.rod_mm), rpm(row.rpm)),
          row.v_max_m_s,
          2e-9,
        ),
      ]),
    ],
  },
  {
    formula: "Compression ratio",
    source: "Heywood (1988), §2.2",
    expected: 2,
    rows: all("engine-geometry", "compression-ratio", (row) => {
      const gasket = {
        kind: "ring",
        bore: millimetres(row.gasket_bore_mm),
        compressed: millimetres(row.gasket_thickness_mm),
      } as const;
      const piston = { dish: cubicMetres(row.piston_dish_cm3 * 1e-6), belowDeck: millimetres(row.deck_clearance_mm) };
      const engine = { bore: millimetres(row.bore_mm), stroke: millimetres(row.stroke_mm), gasket, piston, cams: {} };
      return [exact(compressionRatio(engine, cubicMetres(row.chamber_cm3 * 1e-6))!, row.CR, 1e-9)];
    }),
  },
  {
    formula: "Inlet Mach index Z, and the engine speed of Z = 0.6",
    source: "Taylor, vol. 1, ch. 6; Livengood & Stanitz, NACA TN 915",
    expected: 6,
    rows: all("mach-index", "Z", (row) => {
      const area = squareMetres((row.n_inlet * row.Ci * Math.PI * row.Di_m ** 2) / 4);
      const [bore, stroke, sound] = [metres(row.bore_m), metres(row.stroke_m), metresPerSecond(row.a_m_s)];
      return [
        exact(inletMachIndex(bore, stroke, rpm(row.rpm), area, sound), row.Z),
        exact(machIndexRpm(bore, stroke, 0.6, area, sound), row.rpm_at_Z_0_6, 2e-9),
      ];
    }),
  },
  {
    formula: "PCHIP slopes and values",
    source: "Fritsch & Butland (1984); Fritsch & Carlson (1980); SLATEC quick check 3",
    expected: 46,
    rows: all("monotone-interpolation", "pchip", (row) => {
      const d = pchipSlopes(row.x, row.y);
      const scale = Math.max(...row.derivatives.map(Math.abs));
      return [
        ...row.derivatives.map((said: number, k: number): Row => [d[k]!, said, 2e-9 * scale]),
        ...row.eval_x.map(
          (x: number, k: number): Row => [curveAt({ x: row.x, y: row.y, d }, x)!, row.eval_y[k], 1e-9 * scale],
        ),
      ];
    }),
  },
  {
    formula: "Student's t, 68.27 to 99.73 %",
    source: "NIST TN 1297, table B.1 = GUM, table G.2; 2 decimals",
    expected: 83,
    rows: published("student-t").flatMap((row) => {
      const nu = row.nu ?? infinite;
      const columns: readonly (readonly [number, number | undefined])[] = [
        [0.6827, row.p68_27],
        [0.9, row.p90],
        [0.95, row.p95],
        [0.9545, row.p95_45],
        [0.99, row.p99],
        // One printed value is off in its fourth figure, as the reference says.
        [0.9973, row.mismatch === undefined ? row.p99_73 : undefined],
      ];
      return columns.flatMap(([confidence, said]) =>
        said === undefined ? [] : [printed(studentT(nu, confidence), said, 0.005)],
      );
    }),
  },
  {
    formula: "Student's t, 95 %, ten figures",
    source: "recomputed from the distribution",
    expected: 13,
    rows: published("student-t").flatMap((row) =>
      row.nu === null ? [] : [exact(studentT(row.nu, 0.95), row.t95_exact)],
    ),
  },
  {
    formula: "Combined uncertainty, effective degrees of freedom",
    source: "JCGM 100:2008, H.1 (end gauge)",
    expected: 2,
    rows: all("uncertainty", "welch-satterthwaite", (row) => {
      const { u, dof } = combine(terms(row.contributions_nm, row.dof));
      return [printed(u, row.published.uc_nm, 0.5), printed(Math.floor(dof), row.published.nu_eff, 0)];
    }),
  },
  {
    formula: "Sum of four unit errors, 95 % interval",
    source: "JCGM 101:2008, 9.2",
    expected: 2,
    rows: all("uncertainty", "combine", (row) => {
      const { u } = combine(terms(row.u, []));
      return [exact(u, row.published.uc), printed(u * studentT(infinite, 0.95), row.published.interval95, 0.005)];
    }),
  },
  {
    formula: "Mean and standard deviation",
    source: "NIST StRD, certified",
    expected: 8,
    rows: published("nist-strd").flatMap((row): Row[] => {
      if (row.sd === undefined) return [];
      // NumAcc3 is given by its construction: 1000000.2 once, then 500 pairs.
      const pairs = Array.from({ length: 500 }, () => [1000000.1, 1000000.3]).flat();
      const spread = spreadOf(row.data ?? [1000000.2, ...pairs]);
      return [exact(spread.mean_m3_s, row.mean, 1e-13), exact(spread.standard_deviation_m3_s!, row.sd)];
    }),
  },
  {
    // The mean is 100.145, printed as 100.14.
    formula: "Mean and standard deviation, printed",
    source: "JCGM 100:2008, 4.4.3; 2 decimals",
    expected: 2,
    rows: all("uncertainty", "type-a", (row) => {
      const spread = spreadOf(row.data);
      return [
        printed(spread.mean_m3_s, row.published.mean, 0.005 + 1e-9),
        printed(spread.standard_deviation_m3_s!, row.published.s, 0.005),
      ];
    }),
  },
  {
    formula: "Worked conversions, there and back",
    source: "NIST SP 811 (2008), B.8",
    expected: published("units", "worked").length,
    rows: published("units", "worked").map((row) => {
      const from = workedUnit(row.unit);
      const to = workedUnit(row.to);
      return exact(fromSi(toSi(row.value, ...from), ...to), row.expected, 1e-9);
    }),
  },
];

function decimalsOf(value: number): number {
  return `${value}`.split(".")[1]?.length ?? 0;
}

function workedUnit(name: string): readonly [Kind, string] {
  const others: Readonly<Record<string, readonly [Kind, string]>> = {
    ...plainUnit,
    degF: ["temperature", "degF"],
    degC: ["temperature", "degC"],
    Pa: ["pressure", "Pa"],
    kPa: ["pressure", "kPa"],
    "m3/s": ["flow", "m3/s"],
    "L/s": ["flow", "l/s"],
    mm: ["length", "mm"],
    cm3: ["volume", "cm3"],
    kW: ["power", "kW"],
    K: ["temperature", "K"],
    "m/s": ["speed", "m/s"],
  };
  return others[name]!;
}

const met = ([computed, said, allowed]: Row) => Math.abs(computed - said) <= allowed;
const relative = ([computed, said]: Row) => (said === 0 ? Math.abs(computed) : Math.abs(computed / said - 1));

describe("every formula against its reference, row by row", () => {
  test.each(TABLE)("$formula: $source", ({ rows, expected }) => {
    expect(rows).toHaveLength(expected);
    for (const [k, row] of rows.entries()) expect(met(row), `row ${k}: ${row.join(", ")}`).toBe(true);
  });

  // SHOW_DEVIATIONS=1 prints the table in which an engineer looks first.
  afterAll(() => {
    if (process.env.SHOW_DEVIATIONS !== "1") return;
    const lines = TABLE.map(({ formula, source, rows, expected }) => {
      const largest = Math.max(...rows.map(relative));
      return `| ${formula} | ${source} | ${rows.filter(met).length} of ${expected} | ${largest.toExponential(1)} |`;
    });
    const head = ["| formula | source | reference rows met | largest relative deviation |", "|---|---|---|---|"];
    process.stdout.write(`${[...head, ...lines].join("\n")}\n`);
  });
});
