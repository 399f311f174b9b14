import { describe, expect, test } from "vitest";
import { disk } from "../../src/io/disk.ts";
import type { Sheet } from "../../src/sheet/content.ts";
import { toSi } from "../../src/units/convert.ts";
import { unitSymbol } from "../../src/units/show.ts";
import { KINDS, type Kind, unitsOf } from "../../src/units/table.ts";
import { demo } from "../whole/demo.ts";
import { pagesOf, sheetsOf } from "./made.ts";
import { onPaper } from "./on-paper.ts";

const IMPERIAL = {
  length: "in",
  area: "in2",
  volume: "cc",
  flow: "cfm",
  pressure: "inH2O",
  temperature: "degF",
  speed: "ft/s",
  force: "lbf",
  power: "hp",
};
const METRIC = {
  length: "mm",
  area: "mm2",
  volume: "ml",
  flow: "l/s",
  pressure: "kPa",
  temperature: "degC",
  speed: "m/s",
  force: "N",
  power: "kW",
};

/** What kind a symbol's unit is of, and its name; those of one number only, such as %, are no units here. */
const SYMBOLS = new Map<string, readonly [Kind, string]>(
  KINDS.filter((kind) => kind in IMPERIAL).flatMap((kind) =>
    [...unitsOf(kind)].toReversed().map(({ name }) => [unitSymbol(kind, name), [kind, name]] as const),
  ),
);
const symbol = [...SYMBOLS.keys()]
  .toSorted((a, b) => b.length - a.length)
  .map((one) => one.replaceAll(/[.*+?^${}()|[\]\\/]/g, "\\$&"));
const NUMBER = new RegExp(`([+−]?\\d[\\d,]*(?:\\.\\d+)?)(?: (${symbol.join("|")})(?![\\w/²³₂]))?`, "g");
const RANGE = new RegExp(`([\\d.]+) to ([\\d.]+) (${symbol.join("|")})(?![\\w/²³₂])`, "g");
const PRODUCT = new RegExp(RANGE.source.replace(" to ", " × "), "g");
const UNIT_OF_LABEL = new RegExp(`\\((${symbol.join("|")})\\)`);

type Said = { readonly number: number; readonly half: number; readonly unit?: string };
/** The numbers of a text, each with half of its last digit, and the unit behind it or over it. */
function numbersIn(text: string, over?: string): readonly Said[] {
  // "0.050 to 0.420 in", "3.425 × 2.953 in": the first number has the unit of the second.
  const whole = text
    .replaceAll(/[\u00a0\u202f]/g, " ")
    .replaceAll(RANGE, "$1 $3 to $2 $3")
    .replaceAll(PRODUCT, "$1 $3 × $2 $3");
  return [...whole.matchAll(NUMBER)].map(([, digits = "", own]) => {
    const plain = digits.replaceAll(",", "").replace("−", "-");
    const unit = own ?? over;
    return { number: Number(plain), half: 0.5 * 10 ** -(plain.split(".")[1]?.length ?? 0), ...(unit ? { unit } : {}) };
  });
}

/** Blocks whose units stand in heads and names of rows, not beside their numbers. */
const UNIT_BESIDE = /^(side-|valve-checks|valve-cuts|head-plan|springs-deck|set-up-row)/;
/** Rows of a length in another unit than their column's head says, and rates per length. */
const OTHER_UNIT = /cuts?$|^Rate/;

/** All numbers of tables and headlines, with their place. */
function saidIn(sheet: Sheet): readonly (Said & { readonly at: string })[] {
  return sheet.rows.flatMap(({ cells }) =>
    cells.flatMap(({ block }) =>
      block.parts.flatMap((part, p) => {
        const at = `${block.name} ${p}`;
        if (UNIT_BESIDE.test(block.name)) return [];
        if (part.kind === "headline")
          return part.cells.flatMap((cell, i) =>
            [
              cell.label,
              `${cell.number} ${cell.unit ?? ""}`,
              cell.was ?? "",
              cell.note ?? "",
              cell.verdict?.text ?? "",
            ].flatMap((text) => numbersIn(text, cell.unit).map((one) => ({ ...one, at: `${at} ${i}: ${text}` }))),
          );
        if (part.kind === "facts")
          return part.rows.flatMap(({ label, value, note = "" }) =>
            OTHER_UNIT.test(label)
              ? []
              : numbersIn(`${value} ${note}`).map((one) => ({ ...one, at: `${at} ${label}` })),
          );
        if (part.kind !== "table") return [];
        const groups = (part.groups ?? []).flatMap(({ text, span }) => Array<string>(span).fill(text));
        return part.rows.flatMap((row) =>
          OTHER_UNIT.test(row[0]?.text ?? "")
            ? []
            : row.flatMap(({ text }, c) => {
                const column = part.columns[c]!;
                const label = [column.title, groups[c] ?? "", row[0]?.text ?? ""]
                  .map((one) => UNIT_OF_LABEL.exec(one)?.[1])
                  .find(Boolean);
                const over =
                  column.unit !== undefined && SYMBOLS.has(column.unit)
                    ? column.unit
                    : column.unit === "%" || column.title.endsWith("(%)") || column.title === "n"
                      ? undefined
                      : (label ?? (SYMBOLS.has(part.columns[0]!.unit ?? "") ? part.columns[0]!.unit : undefined));
                // Angles have one unit.
                return numbersIn(text.replaceAll(/\d+°/g, ""), over).map((one) => ({
                  ...one,
                  at: `${at} ${row[0]?.text} / ${column.title}: ${text}`,
                }));
              }),
        );
      }),
    ),
  );
}
const inSi = ({ number, unit }: Said) => {
  const [kind, name] = SYMBOLS.get(unit ?? "") ?? [];
  return kind && name ? toSi(number, kind, name) : number;
};
const range = (one: Said) =>
  [inSi({ ...one, number: one.number - one.half }), inSi({ ...one, number: one.number + one.half })] as const;

describe.each(["alder-lane/2026-014.yaml", "fennick/f-231.yaml", "fennick/fd-16.yaml", "alder-lane/2026-040.yaml"])(
  "%s, printed in inches and in millimetres",
  (job) => {
    const print = (units: typeof IMPERIAL) => saidIn(onPaper(demo(job), disk, { units }).sheet);
    test("every table and the headline, number by number", () => {
      const [inches, millimetres] = [print(IMPERIAL), print(METRIC)];
      expect(inches.length).toBeGreaterThan(80);
      expect(millimetres.map(({ at }) => at.split(" ")[0])).toEqual(inches.map(({ at }) => at.split(" ")[0]));
      const apart = inches.flatMap((one, i) => {
        const other = millimetres[i]!;
        const [a, b] = [range(one), range(other)];
        const slack = 1e-9 * Math.max(Math.abs(a[1]), Math.abs(b[1]));
        return a[0] <= b[1] + slack && b[0] <= a[1] + slack ? [] : [`${one.at} is not ${other.at}`];
      });
      expect(apart).toEqual([]);
    });
    test("which really are other numbers", () => {
      const [inches, millimetres] = [print(IMPERIAL), print(METRIC)];
      const same = inches.filter(({ number }, i) => number === millimetres[i]!.number);
      expect(same.length).toBeLessThan(0.75 * inches.length);
      expect(inches.some(({ unit }) => unit === "cfm")).toBe(true);
      expect(millimetres.some(({ unit }) => unit === unitSymbol("flow", "l/s"))).toBe(true);
    });
  },
);

test.each(["alder-lane/2026-014.yaml", "fennick/fd-16.yaml"])(
  "%s says on Letter what it says on A4, word by word, but for what stands only where there is room",
  async (job) => {
    const optional = new Set(
      onPaper(demo(job), disk, {}).sheet.rows.flatMap(({ cells }) =>
        cells.flatMap(
          ({ block }) =>
            (["how-to-read", "next-steps"].includes(block.name)
              ? JSON.stringify(block.parts).match(/[^\s"\\[\]{}]+/g)
              : []) ?? [],
        ),
      ),
    );
    const words = async (paper: "A4" | "Letter") => {
      const sheets = [...(await sheetsOf(demo(job), disk, { paper })).values()];
      const said = (await Promise.all(sheets.map(pagesOf))).flat().join(" ").split(" ");
      return said.filter((word) => word !== "–" && !optional.has(word)).toSorted();
    };
    const letter = await words("Letter");
    expect(letter.length).toBeGreaterThan(150);
    expect(letter).toEqual(await words("A4"));
  },
);
