import { inlineYaml, type YamlData } from "../source/stringify-yaml.ts";

const LINES = ["4 Slipway", "Portnew"];
const PORT = { valve: 1.654, stem: 0.315, throat: 1.4, seat: { angle: "45 deg", width: 0.06 } };
const CAM = { net_lift: 0.42, duration: "246 deg", at: 0.05, of: "valve" };
const FLOW = "lift    intake  exhaust\n0.100    40.1     33.0\n0.200    78.4     63.1\n";

/** What one writes under a key, where its schema does not say: by the key, or by the key above and the key. For editors, and for hints. */
const EXAMPLES: Readonly<Record<string, YamlData>> = {
  // maps and lists
  address: LINES,
  air: { temperature: "70 degF", pressure: "29.80 inHg", humidity: "45 %" },
  also_measured: [{ what: "Short-side radius", intake: "12 mm", exhaust: "9 mm", how: "radius gauge" }],
  "layout.angle": { intake: "20 deg", exhaust: "20 deg" },
  assembly: { "Tip height intake": "1.612 in" },
  attached: { intake: "none", exhaust: "none" },
  back_cut: { angle: "30 deg", width: 0.03 },
  bench: { test_pressure: "28 inH2O" },
  blocks: ["flow-chart", "dimensions"],
  bottom: ["60 deg", "70 deg"],
  cautions: ["Thin wall at cylinder 3"],
  chambers: { 1: 43.0, 2: 43.4 },
  check_plate: { nominal: "150 cfm", before: "149.4 cfm", after: "150.3 cfm" },
  checks: [{ check: "Pressure test", method: "40 psi hot water 10 min", result: "no leak" }],
  compare: [{ job: "2025-101.yaml", stage: "Finished", label: "Same casting, standard valves" }],
  customer: { name: "H. Ashgrove" },
  "heads.cylinders": [1, 3, 5],
  deck: { cut: 0.01, thickness: 0.485 },
  durations: [{ duration: "240 deg", at: 0.05 }],
  engine: { name: "Launch engine", cylinders: 4, bore: 3.425, stroke: 2.953 },
  exhaust_cam: CAM,
  exhaust_pipe: { diameter: "1.75 in", length: "8 in" },
  fits: ["Launch engine"],
  gasket: { bore: 3.5, compressed: 0.041 },
  head: { name: "Two-valve alloy four" },
  heads: [
    { id: "L", cylinders: [1, 3, 5] },
    { id: "R", cylinders: [2, 4, 6] },
  ],
  hold_back: ["pinch", "sections"],
  included: ["Valves", "Springs"],
  intake_cam: CAM,
  internal: ["Guides: bring back in spring"],
  layout: { bore: 3.425, intake: [[0.78, 0.06]], exhaust: [[-0.88, 0.03]] },
  "layout.intake": [[0.78, 0.06]],
  "layout.exhaust": [[-0.88, 0.03]],
  leakage: { intake: "1.2 cfm", exhaust: "0.8 cfm", how: "port blanked" },
  lifts: [0.2, 0.4, "cam", "peak"],
  not_done: ["Guides not replaced"],
  not_included: ["Gaskets"],
  opening: { width: 1.05, height: 1.85, corner: 0.25 },
  parts: [{ part: "Valve guide", quantity: 12, note: "bronze" }],
  photos: [{ file: "photos/chamber.jpg", caption: "Chamber 1" }],
  pinch: { width: 0.92, height: 1.72, corner: 0.2, where: "pushrod wall" },
  piston: { dish: "5 cc", below_deck: 0.02 },
  port_volumes: { 1: 118, 2: 119 },
  product: { part: "QH-100", name: "Wedge six" },
  ranges: { 3: { intake: "96.0 cfm", exhaust: "98.2 cfm" } },
  repeatability: { spread: "1.2 %", of: 5 },
  report: { test_pressure: "28 inH2O" },
  rows: ["masthead", ["parties", "headline"], { block: "flow-chart", height: 170 }],
  rpm: { from: 2500, to: 7000 },
  runs: [{ cylinder: 1, file: "bench/2026-014.csv" }],
  samples: ["2026-014.yaml"],
  seat: { angle: "45 deg", width: 0.05 },
  sheet: ["handover", "attachment"],
  shop: { name: "Quayside Heads", phone: "0100 1" },
  springs: { installed_height: "1.560 in", seat_force: "84 lbf" },
  stages: [{ name: "As received", intake: PORT, flow: FLOW }],
  units: { length: "in", volume: "cc", flow: "cfm", pressure: "inH2O" },
  valve: { head: 1.732, margin: 0.045, material: "stainless" },
  work: { "Intake ports": ["Bowls opened and blended to the seat"] },
  // ports stand under stages; elsewhere the two words are quantities, which bring their own
  "stages.intake": PORT,
  "stages.exhaust": { valve: 1.378, stem: 0.315, throat: 1.16, seat: { angle: "45 deg", width: 0.075 } },
  // tables
  flow: FLOW,
  profile: "degrees  lift\n-120     0\n0        0.288\n120      0\n",
  sections:
    "at     width  height  corner  name\n0      1.05   1.85    0.25    entry\n1.5    0.92   1.72    0.20    pushrod wall\n",
  // words
  against: "plate no. 2",
  because: "exhaust of cylinder 3 typed twice",
  by: "R. Calloway",
  caption: "Chamber 1, finished",
  casting: "QH 1",
  condition: "cracked at cylinder 3",
  draft: true,
  email: "heads@example.org",
  file: "photos/chamber.jpg",
  "heads.name": "left",
  how: "radius gauge",
  job: "2026-014.yaml",
  label: "Same casting, standard valves",
  limit: "0.003 in",
  method: "40 psi hot water 10 min",
  "bench.name": "Bench 1",
  "customer.name": "H. Ashgrove",
  "engine.name": "Launch engine",
  "head.name": "Two-valve alloy four",
  "product.name": "Wedge six",
  "shop.name": "Quayside Heads",
  note: "bronze",
  one_page: true,
  new_page: true,
  part: "QH-100",
  phone: "0100 1",
  reference: "Order 7",
  remarks: "Flows well for its size; run it with the short pipe.",
  repeats: "As received",
  replaces: "revision 1 of 2026-03-10",
  responsible: "Ruth Calloway",
  split: true,
  optional: true,
  stage: "Finished",
  stamped: "4471-B",
  strapline: "Air through metal",
  strict: true,
  title: "Flow",
  value: "0.0015 in",
  warranty: "12 months on our own work",
  web: "example.org",
  what: "Short-side radius",
};

/** What one writes under `key`; `owner` is the key above it. */
export function exampleOf(owner: string | undefined, key: string): YamlData | undefined {
  const named = (name: string) => (Object.hasOwn(EXAMPLES, name) ? EXAMPLES[name] : undefined);
  return named(`${owner}.${key}`) ?? named(key);
}

/** An example as one line of a job file; none for tables, which want lines of their own. */
export function exampleLine(key: string, example: YamlData): string | undefined {
  const text = JSON.stringify(example);
  return text.includes("\\n") ? undefined : `${key}: ${inlineYaml(example)}`;
}
