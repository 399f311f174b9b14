import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { buildAttachments } from "../../src/embed/embedded-files.ts";
import { evaluateJob } from "../../src/pipeline/evaluate.ts";
import { renderSheet } from "../../src/pipeline/render-sheet.ts";
import { overlay } from "../embed/overlay.ts";
import { demo, kit } from "../whole/demo.ts";
import { everythingIn } from "./made.ts";

/*
 * A rival has the finished sheet of the demo job 2026-014 with everything inside that may be, knows the trade's formulas, and
 * wants the recipe. Each way to it is first shown to work on a sheet that holds nothing back.
 */
const path = demo("alder-lane/2026-014.yaml");
const SECTIONS = `sections: "at area\\n0 1.95\\n1 1.80\\n2 1.676\\n3 1.80\\n3.95 2.0\\n"\n      `;
const typed = readFileSync(path, "utf8").replace(
  "pinch: { width: 1.06, height: 1.62",
  `${SECTIONS}pinch: { width: 1.06, height: 1.62`,
);
const INCH = 0.0254;
const IN2 = INCH ** 2;
/** As typed in that job: 1.06 × 1.62 − (4 − π) 0.22² in²; 119 cc; 0.047 in; 45°. */
const SECRETS = {
  pinch: 1.675654 * IN2,
  "port volume": 119e-6,
  "seat width": 0.047 * INCH,
  "seat angle": Math.PI / 4,
} as const;
type Secret = keyof typeof SECRETS;

// biome-ignore lint/suspicious/noExplicitAny: parsed from a file
type Loose = any;
type Loot = { readonly figures: Loose; readonly job: Loose; readonly all: string };

async function loot(holdBack: readonly string[]): Promise<Loot> {
  const { drawable, diagnostics } = evaluateJob(path, {}, overlay({ [path]: typed }));
  if (!drawable) throw new Error(JSON.stringify(diagnostics));
  const model = { ...drawable.model, report: { ...drawable.model.report, holdBack, embed: "job" as const } };
  const open = { ...drawable, model };
  const files = new Map(
    buildAttachments(open.project, model, open.figures).map(({ name, bytes }) => [
      name,
      new TextDecoder().decode(bytes),
    ]),
  );
  const sheets = await Promise.all(
    ["handover", "engine", "attachment"].map(async (template) =>
      everythingIn((await renderSheet(open, template, {}, kit)).pdf!),
    ),
  );
  return {
    figures: JSON.parse(files.get("figures.json")!),
    job: parse(files.get("job.yaml")!),
    all: sheets.join("\n").replaceAll(/[\u00a0\u202f]/g, " "),
  };
}
const inSi = (text: string | undefined): number => {
  const [, number, unit] = /^([\d.]+)\s*(\S*)$/.exec(text ?? "") ?? [];
  return Number(number) * ({ in: INCH, cc: 1e-6, mm: 1e-3, in2: IN2, deg: Math.PI / 180 }[unit ?? ""] ?? Number.NaN);
};
const lastOf = ({ figures }: Loot) => figures.stages.at(-1).intake;
const printed = ({ all }: Loot, pattern: RegExp): number => Number(pattern.exec(all)?.[1]?.replaceAll(",", ""));

const WAYS: Readonly<Record<string, readonly [Secret, (loot: Loot) => number]>> = {
  "gas speed and flow": [
    "pinch",
    (loot) => lastOf(loot).readings[3].flow_m3_s / lastOf(loot).readings[3].pinch_velocity_m_s,
  ],
  "share of the pinch's ideal flow": [
    "pinch",
    (loot) =>
      lastOf(loot).peak.flow_m3_s /
      (lastOf(loot).pinch_share_of_ideal * loot.figures.reference.ideal_flow_per_area_m_s.intake),
  ],
  "pinch ÷ valve area": [
    "pinch",
    (loot) => lastOf(loot).pinch_to_valve_area * (Math.PI / 4) * lastOf(loot).valve_diameter_m ** 2,
  ],
  "the file's own key": ["pinch", (loot) => lastOf(loot).pinch_area_m2],
  // Common practice: speed [ft/s] = bore² × stroke × rpm × 0.00353 ÷ area [in²]; within 2 % here of the exact form.
  "engine speed at the pinch's mark": [
    "pinch",
    (loot) => {
      const rpm = loot.figures.stages.at(-1).engine?.pinch_limit_rpm;
      return ((3.4 ** 2 * 3.05 * rpm * 0.00353) / ((0.55 * loot.figures.reference.air.sound_speed_m_s) / 0.3048)) * IN2;
    },
  ],
  "the band of engine speeds in words": [
    "pinch",
    (loot) =>
      ((3.4 ** 2 * 3.05 * printed(loot, /\(as received\) and ([\d,]+) to/) * 0.00353) / ((0.45 * 343.2) / 0.3048)) *
      IN2,
  ],
  "width and height in the job's copy": [
    "pinch",
    ({ job }) => {
      const { width, height, corner } = job.stages.at(-1).intake.pinch ?? {};
      return inSi(width) * inSi(height) - (4 - Math.PI) * inSi(corner) ** 2;
    },
  ],
  "the smallest section in the job's copy": [
    "pinch",
    (loot) => Math.min(...rowsOf(loot).map(([, area]) => area), ...(rowsOf(loot).length === 0 ? [Number.NaN] : [])),
  ],
  "the row of sizes on paper": ["pinch", (loot) => printed(loot, /Pinch \(in²\)\s*[\d.]+\s*([\d.]+)/) * IN2],
  "mean port area × length": ["port volume", (loot) => lastOf(loot).mean_port_area_m2 * 3.95 * INCH],
  "the volume's own key": ["port volume", (loot) => lastOf(loot).port_volume_m3],
  "the volume in the job's copy": ["port volume", ({ job }) => inSi(job.stages.at(-1).intake.port_volume)],
  "sections added up along the port": [
    "port volume",
    (loot) =>
      rowsOf(loot).reduce(
        (sum, [at, area], i, all) => (i === 0 ? 0 : sum + ((at - all[i - 1]![0]) * (area + all[i - 1]![1])) / 2),
        Number.NaN,
      ),
  ],
  // Heywood (1988), eq. 6.7, first stage: A = π L cos β (D − 2 w + L ÷ 2 × sin 2β); w radial, × 1 ÷ cos β along the face.
  "coefficients on both areas": [
    "seat width",
    (loot) => {
      const { lift_m: lift, curtain_area_m2, curtain_coefficient, discharge_coefficient } = lastOf(loot).readings[0];
      const area = (curtain_area_m2 * curtain_coefficient) / discharge_coefficient;
      const radial = (1.79 * INCH + lift / 2 - area / (Math.PI * lift * Math.cos(Math.PI / 4))) / 2;
      return radial / Math.cos(Math.PI / 4);
    },
  ],
  "the seat's own keys": ["seat width", (loot) => lastOf(loot).seat_width_m],
  "the angle's own key": ["seat angle", (loot) => lastOf(loot).seat_angle_rad],
  "the seat in the job's copy": ["seat width", ({ job }) => inSi(job.stages.at(-1).intake.seat?.width)],
  "the angle in the job's copy": ["seat angle", ({ job }) => inSi(job.stages.at(-1).intake.seat?.angle)],
};
const rowsOf = ({ job }: Loot): readonly (readonly [number, number])[] =>
  String(job.stages.at(-1).intake.sections ?? "")
    .trim()
    .split("\n")
    .slice(1)
    .map((row) => row.trim().split(/\s+/))
    .map(([at, area]) => [inSi(at?.replace(/in$/, " in")), inSi(area?.replace(/in2$/, " in2"))] as const);
const HELD_BY: Readonly<Record<Secret, string>> = {
  pinch: "pinch",
  "port volume": "port volume",
  "seat width": "seat cuts",
  "seat angle": "seat cuts",
};
const near = (found: number, secret: Secret, within: number) => Math.abs(found / SECRETS[secret] - 1) < within;

describe("the recipe cannot be worked out from the sheet", () => {
  test.each(Object.entries(WAYS))("%s: gives the size while nothing is held back", async (_, [secret, way]) =>
    expect(near(way(await open), secret, 0.08)).toBe(true),
  );
  test.each(Object.entries(WAYS))("%s: gives nothing once it is held back", async (_, [secret, way]) => {
    for (const held of [await heldAlone[HELD_BY[secret]]!, await heldAll]) {
      const found = attempt(() => way(held));
      expect(Number.isFinite(found) && near(found, secret, 0.15)).toBe(false);
    }
  });
  const open = loot([]);
  const heldAlone: Readonly<Record<string, Promise<Loot>>> = Object.fromEntries(
    ["pinch", "sections", "seat cuts", "port volume"].map((what) => [what, loot([what])]),
  );
  const heldAll = loot(["pinch", "sections", "seat cuts", "port volume"]);

  test("no word of a section, of its area or its place is left", async () => {
    expect((await open).all).toMatch(/Area along the port/);
    for (const what of ["sections", "pinch", "port volume"]) {
      const { all, job } = await heldAlone[what]!;
      expect(all).not.toMatch(/area along the|From the manifold face/i);
      expect(job.stages.at(-1).intake.sections).toBeUndefined();
    }
  });

  const SEEN: Readonly<Record<string, readonly number[]>> = {
    "the pinch": [SECRETS.pinch],
    "the port's volume": [119e-6],
  };
  test.each(Object.keys(SEEN))(
    "no number of the file, nor any two of them multiplied or divided, gives %s",
    async (what) => {
      const numbersIn = (value: unknown, key = ""): number[] =>
        typeof value === "number"
          ? /^(lift_m|rpm|repeats|n|revision)$/.test(key)
            ? []
            : [value]
          : typeof value === "object" && value !== null
            ? Object.entries(value).flatMap(([inner, item]) =>
                inner === "curve" || inner === "opening" ? [] : numbersIn(item, inner),
              )
            : [];
      const intake = ({ figures }: Loot) => {
        const { readings, ...rest } = figures.stages.at(-1).intake;
        return [...new Set(numbersIn([rest, readings[9] ?? readings.at(-1), figures.reference]))];
      };
      /** Flow over speed, volume over length: a match to a millionth is no chance. */
      const found = (all: readonly number[]) =>
        SEEN[what]!.some((secret) =>
          all.some((a) =>
            all.concat(1, 3.95 * INCH).some((b) => [a * b, a / b].some((made) => Math.abs(made / secret - 1) < 1e-6)),
          ),
        );
      expect(found(intake(await open))).toBe(true);
      expect(found(intake(await heldAll))).toBe(false);
    },
  );
});

/** A missing key ends the calculation. */
function attempt(way: () => number): number {
  try {
    return way();
  } catch (error) {
    if (error instanceof TypeError) return Number.NaN;
    throw error;
  }
}

describe("the porter's own words", () => {
  const told = async (line: string, held: string) => {
    const text = typed.replace("Short side laid back", line);
    expect(text).toContain(line);
    const { drawable } = evaluateJob(path, {}, overlay({ [path]: text }));
    const model = { ...drawable!.model, report: { ...drawable!.model.report, holdBack: held === "" ? [] : [held] } };
    const made = await renderSheet({ ...drawable!, model }, "handover", {}, kit);
    return made.diagnostics.map(({ severity, code }) => `${severity} ${code}`);
  };
  test.each([
    ["Pinch opened to 1.06 by 1.62 in", "pinch"],
    ["Seats cut at 30 and 45 degrees", "seat cuts"],
    ["Port volume brought to 119 cc", "port volume"],
  ])("%s, while the %s is held back: said, and left to him", async (line, held) =>
    expect(await told(line, held)).toEqual(["warning sheet/recipe-in-words"]),
  );
  test.each([
    ["Pinch opened", "pinch"],
    ["Pinch opened to 1.06 by 1.62 in", "seat cuts"],
    ["Pinch opened to 1.06 by 1.62 in", ""],
  ])("%s, while %j is held back: nothing to say", async (line, held) => expect(await told(line, held)).toEqual([]));
});
