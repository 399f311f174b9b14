import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";

type Documented = {
  readonly file: string;
  readonly name: string;
  readonly doc: string;
  readonly parameters: readonly string[];
};

const root = new URL("../../src/", import.meta.url).pathname;
const files = ["figures", "units"].flatMap((folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".ts"))
    .map((file) => join(root, folder, file)),
);

/** Exported functions, declared or assigned, with the comment before them and the names of their parameters. */
function documentedFunctions(file: string): Documented[] {
  const text = readFileSync(file, "utf8");
  const pattern =
    /(\/\*\*(?:(?!\*\/)[\s\S])*\*\/\s*)?export (?:function (\w+)(?:<[^(]*>)?\(|const (\w+)(?:: [^=]+)? = (?:<[^(]*>)?\()/g;
  return [...text.matchAll(pattern)].flatMap((match) => {
    const name = match[2] ?? match[3]!;
    const open = match.index + match[0].length;
    const { inside, end } = parenthesised(text, open);
    const arrow = match[3] === undefined || /^\s*(?::[^=;]+)?=>/.test(text.slice(end, end + 200));
    if (!arrow) return [];
    return [{ file, name, doc: match[1] ?? "", parameters: parameterNames(inside) }];
  });
}

function parenthesised(text: string, open: number): { inside: string; end: number } {
  let depth = 1;
  let end = open;
  while (depth > 0) {
    if ("([{".includes(text[end]!)) depth++;
    if (")]}".includes(text[end]!)) depth--;
    end++;
  }
  return { inside: text.slice(open, end - 1), end };
}

/** Names at the top level of a parameter list; a destructured one counts as one unnamed parameter. */
function parameterNames(list: string): string[] {
  let depth = 0;
  let current = "";
  const parts: string[] = [];
  for (const [k, char] of [...list].entries()) {
    if ("([{<".includes(char)) depth++;
    if (")]}".includes(char) || (char === ">" && list[k - 1] !== "=")) depth--;
    if (char === "," && depth === 0) {
      parts.push(current);
      current = "";
    } else current += char;
  }
  return [...parts, current]
    .map((part) => part.trim())
    .filter((part) => part !== "")
    .map((part) => part.match(/^_?(\w+)/)?.[1] ?? "");
}

/** The text after a tag, up to the next tag. */
function tag(doc: string, name: string): string | undefined {
  const lines = doc.split("\n").map((line) => line.replace(/^\s*(\/\*\*|\*\/|\*)\s?/, "").replace(/\s*\*\/$/, ""));
  const at = lines.findIndex((line) => line.startsWith(`@${name}`));
  if (at < 0) return undefined;
  const end = lines.findIndex((line, k) => k > at && line.startsWith("@"));
  return lines
    .slice(at, end < 0 ? undefined : end)
    .join(" ")
    .replace(`@${name}`, "")
    .trim();
}

/** Rules of what is plausible have no equation: a limit with its source, in one line. So have the few things they share. */
const RULE = /^export const (\w+)(?:: (?:SideRule|JobRule|StageRule))? = \(/gm;
const rules = files
  .filter((file) => /\/checks\/(?!check-figures|columns-swapped)/.test(file))
  .flatMap((file) => {
    const text = readFileSync(file, "utf8");
    return [...text.matchAll(RULE)].map((match) => ({
      name: match[1]!,
      isRule: match[0].includes("Rule ="),
      before: text.slice(0, match.index).trimEnd(),
    }));
  });
const functions = files
  .flatMap(documentedFunctions)
  .filter(
    ({ name, file }) =>
      !/\/quantity\.ts$/.test(file) && name !== "parseFailure" && !rules.some((rule) => rule.name === name),
  );
const scope: Record<string, unknown> = {};
for (const file of files) Object.assign(scope, await import(file));

const near = (found: unknown, expected: unknown, digits: number): void => {
  if (typeof expected === "number" && typeof found === "number" && Number.isFinite(expected)) {
    expect(Math.abs(found - expected)).toBeLessThanOrEqual(expected === 0 ? 1e-9 : Math.abs(expected) * 10 ** -digits);
  } else if (Array.isArray(expected)) {
    expect(found).toHaveLength(expected.length);
    for (const [k, value] of expected.entries()) near((found as unknown[])[k], value, digits);
  } else if (typeof expected === "object" && expected !== null) {
    expect(Object.keys(found as object).sort()).toEqual(Object.keys(expected).sort());
    for (const [key, value] of Object.entries(expected)) near((found as Record<string, unknown>)[key], value, digits);
  } else expect(found).toEqual(expected);
};

/** Places in which a printed result and the true one may differ: half a unit of its last digit, at three figures the least. */
const figuresOf = (text: string) =>
  Math.min(
    ...[...text.replace(/(?<=\d)e-?\d+/g, "").matchAll(/\d[\d.]*/g)].map(([n]) =>
      Math.max(3, n.replace(".", "").replace(/^0+/, "").length - 1),
    ),
    9,
  );

test("each rule states what it checks and where its limit comes from", () => {
  const checked = rules.filter(({ isRule }) => isRule);
  expect(checked.length).toBeGreaterThan(20);
  for (const { name, before } of checked)
    expect(before, name).toMatch(/\/\*\*(?:(?!\*\/)[\s\S])*@source \S(?:(?!\*\/)[\s\S])*\*\/$/);
});

test("there are functions to look at", () => expect(functions.length).toBeGreaterThan(50));

describe.each(functions)("$name", ({ doc, name, parameters }) => {
  test("states its meaning, parameters and result, and the source of a formula", () => {
    const meaning = doc.replace("/**", "").split("@")[0]!.replace(/[*\s]/g, "");
    expect(meaning.length).toBeGreaterThan(15);
    for (const parameter of parameters.filter((one) => one !== ""))
      expect(doc).toMatch(new RegExp(`@param\\s+\\[?${parameter}\\b`));
    expect(doc.match(/@param/g) ?? []).toHaveLength(parameters.length);
    expect(tag(doc, "returns")).toBeTruthy();
    if (!ORCHESTRATION.has(name)) {
      expect(doc).toMatch(/\n \*\n \* {5}\S/);
      expect(tag(doc, "source") !== undefined).toBe(!DEFINITIONS.has(name));
    }
  });

  test("its example is true", () => {
    const example = tag(doc, "example");
    if (ORCHESTRATION.has(name) && example === undefined) return;
    const [, expression, result] = example?.match(/^([\s\S]*) \/\/ ([\s\S]*)$/) ?? [];
    expect(expression, "an example is an expression, two slashes and its result").toBeTruthy();
    const evaluate = (code: string) =>
      new Function(...Object.keys(scope), `return (${code});`)(...Object.values(scope));
    near(evaluate(expression!), evaluate(result!), figuresOf(result!));
  });
});

/** Functions that are their own definition: nothing to cite. */
const DEFINITIONS = new Set([
  "spotsOf",
  "withoutPoint",
  "acceptedUnits",
  "benchKey",
  "computeBasis",
  "cylinderOfPort",
  "distinctLifts",
  "exceeds",
  "exhaustIsSmaller",
  "isGood",
  "isOutside",
  "machIndexRpm",
  "measuredPorts",
  "narrowSweep",
  "nearestUnit",
  "nounOf",
  "pairedReadings",
  "peakReading",
  "pinchLimitRpm",
  "portKey",
  "handOfPort",
  "portVolume",
  "readAllSweeps",
  "readHeadSweeps",
  "readPoints",
  "sharedLifts",
  "stagesFlowedOn",
  "sweepName",
  "uncertaintyFigures",
  "usablePinch",
  "warningFigure",
]);

/** Functions that only call others in order: they have no equation or source of their own. */
const ORCHESTRATION = new Set([
  "computeFigures",
  "checkEachRule",
  "checkFigures",
  "stageFigures",
  "sideFigures",
  "setSideFigures",
  "engineFigures",
  "compareStages",
]);
