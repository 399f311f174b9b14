import type { Random } from "../claims/random.ts";

/** Files of a generated desk by their path, and the job to make. */
export type Desk = { readonly job: string; readonly files: Readonly<Record<string, string>> };

const pick = <T>(random: Random, all: readonly T[]): T => all[Math.floor(random.uniform(0, all.length))]!;
const chance = (random: Random, share: number) => random.uniform(0, 1) < share;

const shop = (
  random: Random,
  inches: boolean,
) => `shop: { name: Quayside Heads, phone: "0100 1", responsible: A. Miller }
brand: { accent: "${pick(random, ["#1F4E5F", "#8A3B12", "#2F5D3A", "#5B2A86"])}", masthead: ${pick(random, ["rule", "band", "plain"])} }
paper: ${inches ? "Letter" : "A4"}
units: { length: ${inches ? "in" : "mm"}, area: ${inches ? "in2" : "mm2"}, volume: cc, flow: ${inches ? "cfm" : "l/s"}, pressure: inH2O, temperature: degC, speed: m/s, force: ${inches ? "lbf" : "N"}, power: kW }
bench: { test_pressure: 28, repeatability: { spread: 1.2 %, of: 5 }, remount: 1.0 %, accuracy: 1.5 %, intake_entry: clay radius, exhaust_pipe: none }
valve_train_limits: { alike: ${inches ? "0.005" : "0.12"}, guide: ${inches ? "0.0030" : "0.08"} }
`;

/** A head set up valve by valve: 1 to 8 cylinders, 2 to 5 valves each, springs alike or by side, gaps and odd ones out. */
export function setUpDesk(random: Random): Desk {
  const inches = chance(random, 0.5);
  const scale = inches ? 1 / 25.4 : 1;
  const cylinders = 1 + Math.floor(random.uniform(0, 8));
  const [ins, exs] = pick(random, [
    [1, 1],
    [1, 1],
    [2, 1],
    [2, 2],
    [3, 2],
  ] as const);
  const number = (value: number, decimals: number) => (value * scale).toFixed(inches ? decimals + 1 : decimals);
  const cell = (value: number, spread: number, decimals: number) =>
    chance(random, 0.05) ? "-" : number(value + random.normal(spread), decimals);
  const columns = ["height", "shim", "tip", "drop", "guide", "runout", "vacuum"].filter(
    (name) => name === "height" || chance(random, 0.85),
  );
  const values: Readonly<Record<string, () => string>> = {
    height: () => cell(39.6, 0.05, 2),
    shim: () => number(pick(random, [0.5, 0.5, 0.5, 0.8]), 2),
    tip: () => cell(46.8, 0.08, 2),
    drop: () => cell(0.6, 0.06, 2),
    guide: () => cell(0.04, 0.01, 3),
    runout: () => number(Math.abs(random.normal(0.02)), 3),
    vacuum: () => pick(random, ["held", "held", "held", "lost", "-"]),
  };
  const rows = Array.from({ length: cylinders }, (_, c) =>
    [ins, exs].flatMap((count, s) =>
      Array.from({ length: count }, (_, v) => {
        const name = `${c + 1}${"IE"[s]}${count > 1 ? "abc"[v] : ""}`;
        return `      ${[name, ...columns.map((column) => values[column]!())].join("  ")}`;
      }),
    ),
  ).flat();
  const spring = (lift: number) =>
    `installed_height: ${number(39.6, 2)}, seat_force: ${inches ? "84 lbf" : "370 N"}, rate: ${inches ? "240 lbf/in" : "42 N/mm"}, coil_bind: ${number(25, 2)}, retainer_to_seal: ${number(13, 1)}, set_up_for: ${number(lift, 1)}`;
  const springs = chance(random, 0.5) ? spring(10.5) : `intake: { ${spring(10.5)} }, exhaust: { ${spring(9.8)} }`;
  const pair = cylinders >= 4 && cylinders % 2 === 0 && chance(random, 0.3);
  const half = Array.from({ length: cylinders }, (_, i) => i + 1);
  const heads = pair
    ? `heads: [ { id: L, stamped: A1, cylinders: [ ${half.slice(0, cylinders / 2).join(", ")} ] }, { id: R, stamped: A2, cylinders: [ ${half.slice(cylinders / 2).join(", ")} ] } ]\n`
    : "";
  const port = (count: number, size: number, side: string) =>
    `    ${side}: { valves: ${count}, valve: { head: ${number(size, 1)}, stem: ${number(7, 2)}, margin: ${number(1.2, 1)} }, throat: ${number(size * 0.87, 1)}, seat: { angle: 45 deg, width: ${number(1.2, 1)}${chance(random, 0.7) ? `, top: { angle: 30 deg, width: ${number(0.9, 1)} }, bottom: [ 60 deg ]` : ""} }${chance(random, 0.5) ? `, opening: { width: ${number(30, 0)}, height: ${number(40, 0)}, corner: ${number(8, 0)} }, gasket_window: { width: ${number(31, 0)}, height: ${number(41, 0)}, corner: ${number(8, 0)} }` : ""} }`;
  const flow = (lift: number, share: number) => (55 * share * Math.tanh(lift / 7) * (inches ? 2.1 : 1)).toFixed(1);
  const job = `job: G-${Math.floor(random.uniform(100, 999))}
sheet: set-up
issued: 2026-05-04
customer: { name: B. Weaver }
head: { name: ${pick(random, ["Generated four", "A head with a rather long name for its only line", "Twin"])}${pair ? "" : ", stamped: Q 17"}${chance(random, 0.5) ? ", numbering: cylinder 1 at the timing end" : ""} }
${heads}engine: { name: an engine, cylinders: ${cylinders}, bore: ${number(84, 1)}, stroke: ${number(80, 1)} }
stages:
  - name: Finished
    date: 2026-05-01
    by: A. Miller
${port(ins, ins > 1 ? 30 : 42, "intake")}
${port(exs, exs > 1 ? 27 : 36, "exhaust")}
    chamber: 44
    valve_train: |
      ${["valve", ...columns].join("  ")}
${rows.join("\n")}
${chance(random, 0.5) ? "    vacuum_test: 600 mbar, 30 s\n" : ""}${chance(random, 0.6) ? `    deck: { cut: ${number(0.2, 2)}, flatness: ${number(0.03, 2)} }\n` : ""}    flow: |
      lift  intake  exhaust
${[2, 4, 6, 8, 10].map((lift) => `      ${number(lift, 1)}  ${flow(lift, 1)}  ${flow(lift, 0.75)}`).join("\n")}
work: { Valves and seats: [ Seats cut at three angles ] }
springs: { ${springs} }
${chance(random, 0.5) ? "parts: [ { part: Valve stem seal, quantity: 8 }, { part: Valve guide, quantity: 4, note: bronze } ]\nnot_done: [ Core plugs not disturbed ]\n" : ""}${chance(random, 0.5) ? "delivered: assembled\n" : ""}${chance(random, 0.3) ? "agreed: [ To be tested afresh before delivery ]\n" : ""}`;
  return { job: "/desk/a.yaml", files: { "/desk/a.yaml": job, "/desk/shop.yaml": shop(random, inches) } };
}

/** Two to four heads for one engine, some without pinch or volume, some held back, some of another customer. */
export function sideBySideDesk(random: Random): Desk {
  const inches = chance(random, 0.5);
  const scale = inches ? 1 / 25.4 : 1;
  const count = pick(random, [2, 2, 2, 3, 4]);
  const number = (value: number, decimals: number) => (value * scale).toFixed(inches ? decimals + 1 : decimals);
  const lifts = Array.from({ length: 5 + Math.floor(random.uniform(0, 7)) }, (_, i) => 1 + i);
  const files: Record<string, string> = { "/desk/shop.yaml": shop(random, inches) };
  const both = chance(random, 0.85);
  for (let n = 0; n < count; n++) {
    const [level, tilt] = [random.normal(0.06), random.normal(0.08)];
    const flow = (lift: number, share: number) =>
      (
        52 *
        share *
        Math.tanh(lift / 6) *
        (1 + level + tilt * (lift / lifts.length - 0.5)) *
        (1 + random.normal(0.004)) *
        (inches ? 2.1 : 1)
      ).toFixed(1);
    const row = (lift: number) => `      ${number(lift, 1)}  ${flow(lift, 1)}${both ? `  ${flow(lift, 0.75)}` : ""}`;
    const repeats = chance(random, 0.7) ? lifts.toReversed().slice(1).map(row) : [];
    const own = chance(random, 0.6);
    const pinch = chance(random, 0.7)
      ? `, pinch: { width: ${number(27, 1)}, height: ${number(36 + random.normal(3), 1)}, corner: ${number(6, 1)} }`
      : "";
    const volume = chance(random, 0.7) ? `, port_volume: ${(120 + random.normal(12)).toFixed(0)}` : "";
    files[`/desk/h${n}.yaml`] = `job: H-${n}
issued: 2026-05-04
customer: { name: ${own ? "B. Weaver" : "Someone Else"} }
head: { name: Generated head, stamped: Z${n}Z }
${own ? "" : "may_compare: yes\n"}${chance(random, 0.2) ? "report: { hold_back: [ pinch ] }\n" : ""}stages:
  - name: Finished
    date: 2026-04-0${n + 1}
${chance(random, 0.1) ? "    bench: { test_pressure: 20 }\n" : ""}    intake: { valve: { head: ${number(42, 1)}, stem: ${number(8, 1)} }, throat: ${number(36, 1)}${pinch}${volume} }
    exhaust: { valve: { head: ${number(36, 1)}, stem: ${number(8, 1)} }, throat: ${number(31, 1)} }
    flow: |
      lift  intake${both ? "  exhaust" : ""}
${[...lifts.map(row), ...repeats].join("\n")}
`;
  }
  const cam = chance(random, 0.8)
    ? `, rpm: { from: 3000, to: 8000 }, intake_cam: { net_lift: ${number(lifts.length - 1.4, 1)}, duration: 250 deg, at: ${number(1.27, 2)}, of: valve }`
    : "";
  files["/desk/a.yaml"] = `job: G-${Math.floor(random.uniform(100, 999))}
issued: 2026-05-20
customer: { name: B. Weaver }
head: { name: Which head for the engine }
engine: { name: an engine, cylinders: 4, bore: ${number(86, 1)}, stroke: ${number(78, 1)}${cam} }
heads_of:
${Array.from({ length: count }, (_, n) => `  - { job: h${n}.yaml, label: ${pick(random, ["small port", "large port", "as cast", "ported by a friend of the customer's"])} ${n} }`).join("\n")}
${chance(random, 0.6) ? "opinion: I would fit A, and keep the other for a longer cam.\n" : ""}`;
  return { job: "/desk/a.yaml", files };
}
