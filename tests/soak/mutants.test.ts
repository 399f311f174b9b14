import { execFile } from "node:child_process";
import { cpSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { promisify } from "node:util";
import { afterAll, beforeAll, describe, expect, test } from "vitest";

/** A mistake that a tired programmer makes: one place of one file, put wrong by hand. */
type Mutant = { readonly what: string; readonly file: string; readonly from: string; readonly to: string };

const MUTANTS: readonly Mutant[] = [
  {
    what: "wrong constant: water at 39.2 °F for conventional water",
    file: "units/table.ts",
    from: "const WATER = 1000;",
    to: "const WATER = 999.972;",
  },
  {
    what: "wrong constant: γ of burnt gas for that of air",
    file: "figures/constants.ts",
    from: "HEAT_RATIO = 1.4",
    to: "HEAT_RATIO = 1.33",
  },
  {
    what: "wrong constant: R of damp air for that of dry",
    file: "figures/constants.ts",
    from: "GAS_CONSTANT = 287.05",
    to: "GAS_CONSTANT = 288.2",
  },
  {
    what: "swapped side: the exhaust's ideal flow for the intake's",
    file: "figures/air/ideal-flow.ts",
    from: 'side === "intake"',
    to: 'side === "exhaust"',
  },
  {
    what: "swapped meters: volumetric corrected as mass",
    file: "figures/sweep/reading-to-reference.ts",
    from: 'bench.meter === "volumetric" ?',
    to: 'bench.meter === "mass" ?',
  },
  {
    what: "leakage left on",
    file: "figures/sweep/reading-to-reference.ts",
    from: "(flow - leakageAt(bench, side, pressure))",
    to: "flow",
  },
  {
    what: "dropped cosine: a seat's face width taken for the radial one",
    file: "figures/geometry/valve-areas.ts",
    from: "faceWidth * Math.cos(angle)",
    to: "faceWidth",
  },
  {
    what: "k for t: 2 whatever the degrees of freedom",
    file: "figures/math/uncertainty.ts",
    from: "expanded: studentT(dof) * u",
    to: "expanded: 2 * u",
  },
  {
    what: "degrees of freedom not weighed by the square of their share",
    file: "figures/math/uncertainty.ts",
    from: "(variance / whole) ** 2 / dof",
    to: "variance / whole / dof",
  },
  {
    what: "a shared error that does not cancel",
    file: "figures/math/uncertainty.ts",
    from: "else sum.u += u * by;",
    to: "else sum.u = Math.hypot(sum.u, u * by);",
  },
  {
    what: "the lifts of one mount set as if each by itself",
    file: "figures/math/uncertainty.ts",
    from: 'lifts === "larger" ? sumOfSquares(ofMounts) : 0',
    to: "0",
  },
  {
    what: "no allowance for re-mounting that nobody measured",
    file: "figures/sweep/scatter.ts",
    from: "ratio: REMOUNT_ALLOWANCE / 2 }",
    to: "ratio: 0 }",
  },
  {
    what: "every lift a claim of its own",
    file: "figures/comparison/lift-claims.ts",
    from: "alone[k] !== 0 || usual[k - 1] === sign || usual[k + 1] === sign ? sign : 0",
    to: "sign",
  },
  {
    what: "s for s ÷ √n",
    file: "figures/sweep/uncertainty-budget.ts",
    from: "(share * repeatability.ratio * mean) / Math.sqrt(n)",
    to: "share * repeatability.ratio * mean",
  },
  {
    what: "the half-width of a rectangle taken for its deviation",
    file: "figures/sweep/uncertainty-budget.ts",
    from: "(part * error * flow) / Math.sqrt(3)",
    to: "part * error * flow",
  },
  {
    what: "n for n − 1",
    file: "figures/sweep/repeatability.ts",
    from: "dof += group.length - 1",
    to: "dof += group.length",
  },
  {
    what: "swapped weights of the interpolant",
    file: "figures/math/pchip.ts",
    from: "w1 / delta[k]! + w2 / delta[k + 1]!",
    to: "w2 / delta[k]! + w1 / delta[k + 1]!",
  },
  {
    what: "two ports counted as one at the pinch",
    file: "figures/engine/engine-figures.ts",
    from: "squareMetres(one * port.ports)",
    to: "squareMetres(one)",
  },
  {
    what: "sin for sin² in a cam's lift",
    file: "figures/math/raised-cosine.ts",
    from: "netLift * Math.sin(Math.PI * share) ** 2",
    to: "netLift * Math.sin(Math.PI * share)",
  },
  {
    what: "a dish that adds compression",
    file: "figures/geometry/chamber-figures.ts",
    from: "piston.belowDeck + piston.dish",
    to: "piston.belowDeck - piston.dish",
  },
  {
    what: "a mean beyond the cam's lift",
    file: "figures/math/lifts.ts",
    from: "Math.min(reach, netLift ?? reach)",
    to: "reach",
  },
  {
    what: "the floor forgotten",
    file: "figures/sweep/verdict.ts",
    from: "Math.abs(change) > uncertainty.expanded && Math.abs(change) > floor",
    to: "Math.abs(change) > uncertainty.expanded",
  },
  {
    what: "doubtful readings used",
    file: "figures/sweep/point.ts",
    from: 'kind === "noisy";',
    to: 'kind !== "missing";',
  },
  {
    what: "a flat spot wherever the end is gentle",
    file: "figures/side/flat-spots.ts",
    from: "Math.min(before, flatterBy(b, c, c, d))",
    to: "before",
  },
  {
    what: "half the piston's speed",
    file: "figures/engine/piston-speed.ts",
    from: "(2 * stroke * speed) / 60",
    to: "(stroke * speed) / 60",
  },
];

const ROOT = new URL("../..", import.meta.url).pathname;
const COPIED = ["src", "tests", "jobs", "schemas", "package.json", "tsconfig.json"];
/** None of these catches a wrong figure: an example stands beside its formula, a schema knows no values, a clock no figures. */
const NO_CATCH = ["docstrings", "figures-schema", "speed"].map((name) => `--exclude=**/${name}.test.ts`);

let copy = "";
beforeAll(() => {
  copy = mkdtempSync(join(tmpdir(), "mutants-"));
  for (const name of COPIED) cpSync(join(ROOT, name), join(copy, name), { recursive: true });
  symlinkSync(join(ROOT, "node_modules"), join(copy, "node_modules"));
});
afterAll(() => rmSync(copy, { recursive: true, force: true }));

/** Names of the tests of figures and units that fail in the copy as it stands, up to the first few. */
async function failing(): Promise<string[]> {
  const report = join(copy, "report.json");
  const wanted = ["run", "--config=tests/vitest.config.ts", "tests/figures", "tests/units", ...NO_CATCH];
  const args = [...wanted, "--bail=1", "--no-isolate", "--reporter=json", `--outputFile=${report}`];
  // A failing test ends it with an exit code, which the report explains better.
  const vitest = [join(copy, "node_modules/vitest/vitest.mjs"), ...args];
  await promisify(execFile)(process.execPath, vitest, { cwd: copy }).catch(() => undefined);
  const { testResults } = JSON.parse(readFileSync(report, "utf8")) as {
    testResults: { name: string; message: string; assertionResults: { status: string; fullName: string }[] }[];
  };
  rmSync(report);
  return testResults.flatMap(({ name, message, assertionResults }) => {
    const file = name.slice(name.lastIndexOf("/tests/") + 1);
    // A file that cannot even be read in has no tests to name.
    if (assertionResults.length === 0) return message === "" ? [] : [`${file}: does not load`];
    return assertionResults.flatMap((one) => (one.status === "failed" ? [`${file}: ${one.fullName}`] : []));
  });
}

describe("every mistake made by hand is caught by a test of figures", () => {
  test("and the copy has none before", async () => {
    expect(await failing()).toEqual([]);
  });

  test.each(MUTANTS)("$what", async ({ what, file, from, to }) => {
    const path = join(copy, "src", file);
    const source = readFileSync(path, "utf8");
    expect(source.split(from), `${file} has this once`).toHaveLength(2);
    writeFileSync(
      path,
      source.replace(from, () => to),
    );
    try {
      const caught = await failing();
      process.stdout.write(`| ${what} | ${caught[0] ?? "none"} |\n`);
      expect(caught.length).toBeGreaterThan(0);
    } finally {
      writeFileSync(path, source);
    }
  });
});
