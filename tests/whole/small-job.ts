/** Flows by lift in tenths of an inch, in cfm: `40.1` or with its mark, as `~40.1`. */
export type Flows = readonly (number | string)[];

export const INTAKE: Flows = [42, 83, 120, 145, 158];
export const EXHAUST: Flows = [33, 63, 85, 97, 103.4];

export const times = (flows: Flows, factor: number): Flows => flows.map((flow) => (Number(flow) * factor).toFixed(1));

/** A readings table, indented as in a stage. */
export function table(
  columns: Readonly<Record<string, Flows>>,
  lifts: readonly (number | string)[] = [0.1, 0.2, 0.3, 0.4, 0.5],
): string {
  const names = Object.keys(columns);
  const rows = lifts.map((lift, i) => [lift, ...names.map((name) => columns[name]?.[i] ?? "-")].join("  "));
  return [`lift  ${names.join("  ")}`, ...rows].map((line) => `      ${line}`).join("\n");
}

export const both = (intake: Flows, exhaust: Flows = EXHAUST): string => table({ intake, exhaust });

/** One stage: what it holds beside its name, each an own line, then its readings. */
export const stage = (name: string, flow: string | undefined, more: readonly string[] = []): string =>
  [
    `  - name: ${name}`,
    ...more.map((line) => `    ${line}`),
    ...(flow === undefined ? [] : ["    flow: |", flow]),
  ].join("\n");

/** A bench that knows how well it repeats, and what taking the head off and on adds. */
export const SURE =
  "name: Bench 1, test_pressure: 28, accuracy: 1.5 %, repeatability: 0.6 %, remount: 1 %, bore_fixture: 3.4, intake_entry: clay radius, exhaust_pipe: none";

/** A job before and after, for one lie at a time. */
export const job = (stages: readonly string[], more: readonly string[] = [], bench = SURE): string =>
  [
    'job: "77"',
    "issued: 2026-03-18",
    "customer: { name: C. Marlow }",
    "head: { name: Test head }",
    "units: { length: in, area: in2, volume: cc, flow: cfm, pressure: inH2O, temperature: degF }",
    `bench: { ${bench} }`,
    ...more,
    "stages:",
    ...stages,
    "",
  ].join("\n");

/** The long form of a stage's readings: one run of one cylinder. */
export const run = (cylinder: number, flow: string): readonly string[] => [
  "runs:",
  `  - cylinder: ${cylinder}`,
  "    flow: |",
  ...flow.split("\n").map((line) => `    ${line}`),
];
