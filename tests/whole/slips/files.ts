import { png } from "../../project/pictures.ts";

const METRIC = `customer: { name: H. Ashgrove }
head: { name: Two-valve single, casting: S 27 }
units: { length: mm, area: mm2, volume: cc, flow: l/s, pressure: inH2O, temperature: degC }
bench:
  test_pressure: 28
  reads: percent
  ranges: { "3": { intake: 50, exhaust: 50 }, "4": { intake: 80, exhaust: 80 } }
stages:
  - name: As received
    intake: { valve: 36, stem: 7, throat: 30.5, seat: { angle: 45 deg, width: 1.5 } }
    exhaust: { valve: 31, stem: 7, throat: 26.5, seat: { angle: 45 deg, width: 1.8 } }
    chamber: 38.0
`;

/** A shop, two jobs typed from paper (inches; millimetres on a percent bench) and a product: nothing is wrong with any of them. */
export const SOUND: Readonly<Record<string, string | Uint8Array>> = {
  "/shop/shop.yaml": `shop: { name: Quay Lane Heads, accent: "#1F4E5F", address: [ 4 Slipway, Portnew ] }
bench: { name: Bench 1, accuracy: 1.5 %, repeatability: { spread: 1.2 %, of: 5 }, remount: 1.4 % }
`,
  "/shop/2026-014.yaml": `job: "2026-014"
issued: 2026-03-18
received: 2026-02-20
sheet: [ handover, engine ]
customer: { name: H. Ashgrove, phone: 555 0142 }
head: { name: Two-valve alloy four, stamped: 4471-B }
units: { length: in, area: in2, volume: cc, flow: cfm, pressure: inH2O, temperature: degF }
engine:
  cylinders: 4
  bore: 3.425
  stroke: 2.953
  rod_length: 5.390
  gasket: { bore: 3.500, compressed: 0.041 }
  piston: { dome: 3 cc, below_deck: 0.020 }
  rpm: { from: 2500, to: 7000 }
  intake_cam: { net_lift: 0.420, duration: 246 deg, at: 0.050, of: valve }
bench:
  test_pressure: 25
  leakage: { intake: 0.6, exhaust: 0.5, how: port blanked }
  air: { temperature: 70, pressure: 29.80 inHg, humidity: 45 % }
  bore_fixture: 3.450
  check_plate: { nominal: 150, before: 149.4, after: 150.3 }
report: { lifts: [ 0.200, 0.400, cam, peak ] }
stages:
  - name: As received
    date: 2026-02-23
    intake:
      valve: { head: 1.720, stem: 0.315, margin: 0.040 }
      seat: { angle: 45 deg, width: 0.060 }
      throat: 1.470
      pinch: { width: 0.98, height: 1.50, corner: 0.20 }
      port_volume: 104
      port_length: 3.95
    exhaust: { valve: 1.490, stem: 0.315, throat: 1.270, seat: { angle: 45 deg, width: 0.075 } }
    chambers: { 1: 43.4, 2: 43.2, 3: 43.5, 4: 43.3 }
    flow: |
      lift    intake  exhaust
      0.100     51.3    43.6
      0.150     76.6    64.4
      0.200     99.6    82.3
      0.250    118.3    95.5
      0.300    134.0   105.5
      0.350    143.6   111.3
      0.400    148.7     -        # clay came off
      0.450    151.1   115.4
      0.300    133.2   105.0
  - name: Finished
    date: 2026-03-12
    intake: { valve: 1.790, throat: 1.590, pinch: { width: 1.06, height: 1.62, corner: 0.22 }, port_volume: 121, seat: { width: 0.047 } }
    exhaust: { valve: 1.530, throat: 1.330, seat: { width: 0.060 } }
    chambers: { 1: 42.9, 2: 42.8, 3: 42.9, 4: 42.7 }
    flow: |
      lift    intake  exhaust
      0.100     58.0    49.5
      0.150     87.3    73.4
      0.200    114.4    93.5
      0.250    138.2   108.0
      0.300    157.8   119.0
      0.350    172.4   126.3
      0.400    181.9   130.7
      0.450    187.6   132.6
      0.300    158.4   119.3
work:
  Intake ports: [ Bowls opened and blended to the seat, Short side laid back ]
  Exhaust ports: [ Guide boss slimmed ]
not_done: [ Guides not replaced ]
springs: { installed_height: 1.560, seat_force: 84 lbf, coil_bind: 1.020, retainer_to_seal: 0.510 }
parts: [ { part: Valve guide, quantity: 8, note: bronze } ]
photos: [ { file: photos/chamber.png, caption: Chamber 1 as it left } ]
remarks: Run it with the short pipe.
may_compare: yes
`,
  "/shop/photos/chamber.png": png({ width: 900, height: 675 }),
  "/shop/2026-012.yaml": `job: "2026-012"
issued: 2026-03-02
may_compare: yes
${METRIC}    flow: |
      lift  intake  exhaust  range
      2.0    34.0    28.2    3
      4.0    66.8    54.9    3
      6.0    58.9    47.0    4
      8.0    67.9    53.3    4
      10.0   71.7    55.5    4
`,
  "/shop/2026-015.yaml": `job: "2026-015"
issued: 2026-04-02
${METRIC}    runs:
      - cylinder: 1
        file: bench/1.csv
      - cylinder: 2
        flow: |
          lift  intake  exhaust  range
          2.0    35.6    29.2    3
          4.0    70.0    56.8    3
          6.0    61.2    48.9    4
          8.0    70.8    55.2    4
          10.0   74.6    57.4    4
compare: [ { job: 2026-012.yaml, stage: As received, label: Last month's } ]
`,
  "/shop/bench/1.csv": `lift;intake;exhaust;range
2.0;35.4;29.0;3
4.0;69.6;56.5;3
6.0;61.0;48.8;4
8.0;70.6;55.0;4
10.0;74.4;57.3;4
`,
  "/shop/qh-100.yaml": `product: { part: QH-100, name: Wedge six, fits: [ Launch engine ], included: [ Valves, Springs ] }
issued: 2026-04-01
sheet: catalogue
samples: [ 2026-014.yaml ]
`,
};
