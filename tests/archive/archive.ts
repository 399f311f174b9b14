/** One file of an archive: its path under the jobs folder, and its text. */
export type Filed = Readonly<Record<string, string>>;

/** What a head of a kind is like, in millimetres; `valves` of the intake and of the exhaust. */
type Kind = {
  readonly name: string;
  readonly material: string;
  readonly bore: number;
  readonly stroke: number;
  readonly intake: { readonly valves: number; readonly valve: number; readonly ports?: number };
  readonly exhaust: { readonly valves: number; readonly valve: number };
  readonly pushrods?: true;
};

/** Invented heads: one, two and four valves a cylinder, singles to eights. */
const KINDS: readonly Kind[] = [
  {
    name: "Two-valve alloy four",
    material: "aluminium",
    bore: 86.4,
    stroke: 77.5,
    intake: { valves: 1, valve: 42 },
    exhaust: { valves: 1, valve: 35 },
    pushrods: true,
  },
  {
    name: "Iron wedge eight",
    material: "cast iron",
    bore: 101.6,
    stroke: 88.4,
    intake: { valves: 1, valve: 49.3 },
    exhaust: { valves: 1, valve: 38.1 },
    pushrods: true,
  },
  {
    name: "Inclined-valve single",
    material: "aluminium",
    bore: 87,
    stroke: 84,
    intake: { valves: 1, valve: 45 },
    exhaust: { valves: 1, valve: 38 },
  },
  {
    name: "Four-valve twin-cam four",
    material: "aluminium",
    bore: 82,
    stroke: 79,
    intake: { valves: 2, valve: 32.5 },
    exhaust: { valves: 2, valve: 27.5 },
  },
  {
    name: "Four-valve six, straight ports",
    material: "aluminium",
    bore: 84,
    stroke: 89.6,
    intake: { valves: 2, valve: 33.5, ports: 1 },
    exhaust: { valves: 2, valve: 30 },
  },
  {
    name: "Three-valve twin",
    material: "aluminium",
    bore: 92,
    stroke: 75,
    intake: { valves: 2, valve: 33, ports: 2 },
    exhaust: { valves: 1, valve: 39 },
  },
  {
    name: "Side-draught vintage twin",
    material: "cast iron",
    bore: 66,
    stroke: 90,
    intake: { valves: 1, valve: 34.9 },
    exhaust: { valves: 1, valve: 34.9 },
  },
  {
    name: "Siamesed iron five-port",
    material: "cast iron",
    bore: 70.6,
    stroke: 81.3,
    intake: { valves: 1, valve: 35.6 },
    exhaust: { valves: 1, valve: 29.2 },
    pushrods: true,
  },
];
const CUSTOMERS = ["H. Ashgrove", "O. Marsh", "J. Pell", "R. Tansley", "M. Hollin", "Dace & Rook", "S. Quill"];
const ENTRIES = ["clay radius", "turned radius plate", "none"];
const PRESSURES = ["10 inH2O", "25 inH2O", "28 inH2O", "7 kPa"];
/** Of 103.6 m/s: air at 28 inches of water through an ideal opening, see figures.md. */
const IDEAL_AT_28 = 103.6;
const INCHES_OF_WATER = 249.08891;
const PASCALS: Readonly<Record<string, number>> = {
  "10 inH2O": 10 * INCHES_OF_WATER,
  "25 inH2O": 25 * INCHES_OF_WATER,
  "28 inH2O": 28 * INCHES_OF_WATER,
  "7 kPa": 7000,
};

const SHOP = `shop: { name: Harrow Mill Heads, phone: 555 0163, accent: "#2F5D3A", responsible: Edith Farrant }
paper: A4
bench:
  name: Mill bench
  accuracy: 1.5 %
  repeatability: { spread: 1.2 %, of: 5 }
  remount: 1.4 %
`;

/**
 * A shop's archive of `count` jobs over many years, the same for the same seed: units in inches and millimetres, four test
 * pressures, heads of one to four valves; about one job in sixty is broken, one in a hundred is a product.
 */
export function archive(count: number, seed = 1): Filed {
  const files: Record<string, string> = { "shop.yaml": SHOP };
  const sampled: string[] = [];
  for (let index = 0; index < count; index++) {
    const draw = randomOf(seed * 1_000_003 + index);
    const year = 2009 + Math.floor((index * 17) / count);
    const number = `${year}-${String(index + 1).padStart(4, "0")}`;
    const path = `${year}/${number}.yaml`;
    if (index % 100 === 99 && sampled.length >= 3) files[path] = product(number, year, sampled.slice(-3));
    else {
      const text = job(number, year, draw);
      const broken = draw() < 1 / 60;
      files[path] = broken ? spoiled(text, draw) : text;
      // A product's samples share one set of conditions: only the plainest heads go into one.
      if (!broken && text.includes("kind: sample")) sampled.push(`../${path}`);
    }
  }
  return files;
}

/** A product names no job's own conditions: its samples are of one kind, on one bench, alike. */
function product(number: string, year: number, samples: readonly string[]): string {
  return `product: { part: P-${number}, name: Road pattern head, revision: B }
issued: ${year}-11-20
units: { length: mm, flow: cfm, pressure: inH2O }
samples: [ ${samples.join(", ")} ]
`;
}

function job(number: string, year: number, draw: () => number): string {
  const sample = draw() < 0.06;
  const kind = sample ? KINDS[3]! : pick(KINDS, draw);
  const inches = sample ? false : draw() < 0.5;
  const litres = !sample && !inches && draw() < 0.4;
  const pressure = sample ? "28 inH2O" : pick(PRESSURES, draw);
  const entry = sample ? ENTRIES[0]! : pick(ENTRIES, draw);
  const fixture = sample ? 82 : kind.bore * (0.99 + draw() * 0.02);
  const pipe = !sample && draw() < 0.3;
  const scale = 0.96 + draw() * 0.08;
  const stages = draw() < 0.12 ? 1 : draw() < 0.2 ? 3 : 2;
  const day = (n: number) => String(1 + (n % 27)).padStart(2, "0");
  const month = String(1 + Math.floor(draw() * 12)).padStart(2, "0");
  const length = (mm: number) => (inches ? (mm / 25.4).toFixed(3) : mm.toFixed(2));
  const flow = (si: number) => (litres ? si * 1000 : si / 4.719474e-4).toFixed(1);
  const pascals = PASCALS[pressure]!;
  const names = stages === 1 ? ["Finished"] : ["As received", "Finished", "Bowls opened again"].slice(0, stages);
  const allowed = draw();
  const may = sample ? "" : allowed < 0.5 ? "may_compare: yes\n" : allowed < 0.6 ? "may_compare: no\n" : "";
  const held = !sample && draw() < 0.1 ? "report: { hold_back: [ pinch, port volume ] }\n" : "";
  const pinched = draw() < 0.6;
  const repeats = draw() < 0.6;
  const port = (side: "intake" | "exhaust", at: number) => {
    const { valves, valve } = kind[side];
    const ports = side === "intake" ? (kind.intake.ports ?? 1) : 1;
    const grown = valve * scale * (1 + 0.012 * at);
    const throat = grown * (0.855 + 0.012 * at);
    const area = (Math.PI / 4) * grown * grown * (valves / ports) * (0.74 + 0.03 * at);
    const pinch = pinched
      ? `, pinch: { area: ${inches ? `${(area / 645.16).toFixed(3)} in2` : `${area.toFixed(0)} mm2`} }`
      : "";
    return `{ valves: ${valves / ports}${ports > 1 ? `, ports: ${ports}` : ""}, valve: { head: ${length(grown)}, stem: ${length(valves > 1 ? 5.5 : 8)} }, seat: { angle: 45 deg, width: ${length(1.3)} }, throat: ${length(throat)}${pinch} }`;
  };
  const table = (at: number, strength: number) => {
    const steps = inches ? [1.27, 2.54, 3.81, 5.08, 6.35, 7.62, 8.89, 10.16, 11.43] : [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
    const lifts = repeats ? [...steps, ...steps.filter((_, k) => k % 2 === 1).reverse()] : steps;
    const rows = lifts.map((lift) => {
      const cells = (["intake", "exhaust"] as const).map((side) => {
        const { valves, valve } = kind[side];
        const ports = side === "intake" ? (kind.intake.ports ?? 1) : 1;
        const diameter = (valve * scale * (1 + 0.012 * at)) / 1000;
        const ideal = IDEAL_AT_28 * Math.sqrt(pascals / (28 * INCHES_OF_WATER));
        const most = strength * (side === "intake" ? 0.5 : 0.46) * (Math.PI / 4) * diameter ** 2 * ideal;
        const curtain = 0.62 * Math.PI * diameter * (lift / 1000) * ideal;
        const noise = 1 + (draw() - 0.5) * 0.008;
        return flow((valves / ports) * most * Math.tanh(curtain / most) * noise);
      });
      return `      ${length(lift)}  ${cells.join("  ")}`;
    });
    return ["      lift  intake  exhaust", ...rows].join("\n");
  };
  const stageText = names.map((name, at) => {
    const strength = 1 + at * (draw() * 0.09 - 0.01);
    return `  - name: ${name}
    date: ${year}-${month}-${day(3 + 5 * at)}
    intake: ${port("intake", at)}
    exhaust: ${port("exhaust", at)}
    flow: |
${table(at, strength)}`;
  });
  return `# ${sample ? "kind: sample" : "a customer's head"}
job: "${number}"
issued: ${year}-${month}-${day(20)}
customer: { name: ${pick(CUSTOMERS, draw)} }
head: { name: "${kind.name}", material: ${kind.material}, stamped: ${Math.floor(draw() * 9000)}-K }
units: { length: ${inches ? "in" : "mm"}, flow: ${litres ? "l/s" : "cfm"}, pressure: inH2O }
engine: { cylinders: 4, bore: ${length(kind.bore)}, stroke: ${length(kind.stroke)} }
bench: { test_pressure: ${pressure}, bore_fixture: ${length(fixture)}, intake_entry: ${entry}, exhaust_pipe: ${pipe ? `{ diameter: ${length(38)}, length: ${length(200)} }` : "none"} }
${may}${held}stages:
${stageText.join("\n")}
work:
  Intake ports: [ Bowls opened and blended to the seat ]
  ${kind.pushrods ? "Valves and seats: [ Seats cut at three angles ]" : "Exhaust ports: [ Roof left as cast ]"}
`;
}

/** A slip of the kind that is made at a bench. */
function spoiled(text: string, draw: () => number): string {
  return pick(
    [
      () => text.replace("customer:", "custmer:"),
      () => text.replace(/throat: [\d.]+/, "throat: 999 mm"),
      () => text.replace(/(flow: \|\n.*\n\s+\S+\s+\S+)\s+\S+\n/, "$1\n"),
      () => text.replace(/test_pressure: [^,]+/, "test_pressure: plenty"),
    ],
    draw,
  )();
}

const pick = <T>(list: readonly T[], draw: () => number): T => list[Math.floor(draw() * list.length)]!;

/** A small generator of numbers from 0 to 1 (mulberry32), the same for the same seed. */
function randomOf(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
