/** An invented shop and jobs that tests start from. */
export const SHOP = `shop: { name: Quayside Heads, address: [ 4 Slipway, Portnew ], phone: "0100 555" }
paper: A4
units: { length: in, area: in2, volume: cc, flow: cfm, pressure: inH2O, temperature: degF, speed: ft/s, force: lbf, power: hp }
bench: { name: Bench one, test_pressure: 28, reads: flow, meter: orifice, accuracy: 1.5 % }
report: { test_pressure: 28 }
`;

export const SHORT_SET = `job: "2026-014"
issued: 2026-03-18
customer: { name: A. Miller }
head: { name: Wedge four, stamped: 4471 }
stages:
  - name: As received
    intake:  { valve: 1.654, stem: 0.315, throat: 1.400, seat: { angle: 45 deg, width: 0.060 } }
    exhaust: { valve: 1.378, stem: 0.315, throat: 1.160, seat: { angle: 45 deg, width: 0.075 } }
    flow: |
      lift    intake  exhaust
      0.100    40.1     33.0
      0.200    78.4     63.1
      0.300   111.5     -        # smudged
      0.400   135?      97.2     # doubtful: drawn open, not used
      0.500   146.3    103.4
  - name: Finished
    intake: { valve: 1.732, throat: 1.525 }
    flow: |
      lift    intake  exhaust
      0.100    44.0     33.1
      0.200    86.2     63.0
      0.300   124.1     84.0
      0.400   150.3     97.0
      0.500   166.0    103.5
work:
  Intake ports: [ Bowls opened and blended to the seat, Short side laid back ]
`;
