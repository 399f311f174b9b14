/** How much a made-up job holds. */
export type Much = { readonly lifts: number; readonly stages: number };

/** A job with `stages` stages of `lifts` readings a side; each number makes another one. */
export function jobText(number: number, { lifts, stages }: Much = { lifts: 10, stages: 2 }): string {
  const gain = 1 + (number % 37) / 500;
  const stage = (at: number) => {
    const row = (i: number) => {
      const lift = 0.5 * ((i + 1) / lifts);
      const flow = (top: number) => top * Math.sin((Math.PI / 2) * (lift / 0.56)) * gain * (1 + at / (12 * stages));
      return `      ${lift.toFixed(4)} ${flow(150).toFixed(1)} ${flow(108).toFixed(1)}`;
    };
    return `  - name: Stage ${at + 1}
    intake: { valve: 1.654, stem: 0.315, throat: ${(1.4 + at / 1000).toFixed(3)}, seat: { angle: 45 deg, width: 0.060 } }
    exhaust: { valve: 1.378, stem: 0.315, throat: ${(1.16 + at / 1000).toFixed(3)}, seat: { angle: 45 deg, width: 0.075 } }
    flow: |
      lift intake exhaust
${Array.from({ length: lifts }, (_, i) => row(i)).join("\n")}`;
  };
  return `job: "B-${number}"
issued: 2026-03-18
sheet: page
customer: { name: Customer ${number}, address: [ 12 Orchard Rise, Westerby ] }
head: { name: Two-valve alloy four, stamped: "${number}-B", material: aluminium }
engine: { name: 1.8 litre road four, cylinders: 4, bore: 3.400, stroke: 3.050, rod_length: 5.350, rpm: { from: 2500, to: 7000 } }
stages:
${Array.from({ length: stages }, (_, at) => stage(at)).join("\n")}
work: { Intake ports: [ Bowls opened and blended to the seat, Short side laid back ] }
not_done: [ Guides not replaced ]
`;
}

/** An invented shop, and a page of two line charts, two of bars, a table of ten rows and the usual blocks. */
export const SHOP = `shop: { name: Bench Works, address: [ 1 Lane ], phone: 555 0100, accent: "#1F4E5F", responsible: A. Porter }
paper: A4
units: { length: in, area: in2, volume: cc, flow: cfm, pressure: inH2O, temperature: degF }
bench: { name: Bench 1, test_pressure: 28, accuracy: 1.5 %, repeatability: { spread: 1.2 %, of: 5 }, remount: 1.4 % }
`;
export const TEMPLATE = `template: page
one_page: true
rows:
  - masthead
  - title
  - parties
  - blocks: [{ block: flow-chart, height: 120, priority: 9 }, { block: change-chart, height: 120, priority: 9 }]
  - { block: flow-table, priority: 9 }
`;
