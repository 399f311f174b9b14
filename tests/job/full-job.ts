/** A customer's job that uses every key there is, as far as keys allow each other; invented throughout. */
export const FULL_JOB = `# yaml-language-server: $schema=../schemas/job.schema.json
job: "2026-014"
issued: 2026-03-18
sheet: [handover, attachment]
revision: 2
replaces: revision 1 of 2026-03-10
because: exhaust of cylinder 3 typed twice
draft: true
received: 2026-02-20
units: { length: in, area: in2, volume: cc, flow: cfm, pressure: inH2O, temperature: degF, speed: ft/s, force: lbf, power: hp, mass: g }
paper: A4
customer: { name: A. Miller, email: a@example.org, phone: "0100 1", address: [ 1 Mill Lane, Portnew ], reference: R 7 }
heads:
  - { id: L, stamped: 4471L, cylinders: [1, 3, 5], name: left, casting: QH 2 }
  - { id: R, stamped: 4471R, cylinders: [2, 4, 6] }
head: { name: Wedge six, casting: QH 1, stamped: "4471", material: aluminium, condition: "cracked at #3 cylinder", numbering: cylinder 1 at the timing side }
engine:
  name: Launch engine
  cylinders: 6
  bore: 3.425
  stroke: 2.953
  rod_length: 5.390
  gasket: { bore: 3.500, compressed: 0.041 }
  piston: { dish: 5 cc, below_deck: 0.020 }
  rpm: { from: 2500, to: 7000 }
  intake_cam: { net_lift: 0.420, duration: 246 deg, at: 0.050, of: valve, lobe_separation: 108 deg, intake_centre: 104 deg }
  exhaust_cam:
    lobe_lift: 0.288
    rocker: 1.5
    lash: 0.012
    duration: 240 deg
    at: 0.050
    of: follower
    durations: [ { duration: 240 deg, at: 0.050 }, { duration: 150 deg, at: 0.200 } ]
    centre: 110 deg
    profile: |
      degrees  lift
      -120     0
      0        0.288
      120      0
  lobe_separation: 108 deg
  intake_centre: 104 deg
bench:
  name: Bench one
  test_pressure: 25
  reads: flow
  meter: orifice
  ranges: { "3": { intake: 96.0 cfm, exhaust: 98.2 cfm } }
  leakage: { intake: 1.2, exhaust: 0.8, how: port blanked, test_pressure: 10 }
  air: { temperature: 70, pressure: 29.80 inHg, humidity: 45 % }
  bore_fixture: 3.450
  intake_entry: clay radius
  exhaust_pipe: none
  attached: { intake: none, exhaust: none }
  accuracy: 1.5 %
  repeatability: { spread: 1.2 %, of: 5 }
  remount: 1.4 %
  lift_setting: 0.002
  resolution: 0.1 cfm
  check_plate: { nominal: 150, before: 149.4, after: 150.3 }
  checked: 2026-02-01
  against: plate no. 2
report:
  test_pressure: 28
  lifts: [0.200, 0.400, cam, peak, low, mid, high]
  headline_set: bare
  pinch_limit: 0.55 Mach
  power_per_flow: 0.257 hp/cfm
  hold_back: [pinch, sections, seat cuts, port volume]
  embed: readings
  strict: false
may_compare: samples only
delivered: assembled
stages:
  - name: As received
    date: 2026-02-21
    by: N. N.
    intake: { valve: 1.654, stem: 0.315, throat: 1.400, pinch: 1.55, seat: { angle: 45 deg, width: 0.060 } }
    exhaust:
      valve: [ 1.378, { head: 1.378, stem: 0.315 } ]
      valves: 2
      seat: not measured
    chamber: 43.2
    flow: |
      lift/in  intake  exhaust/cfm  pressure_i  pressure_e
      0.100    40.1    ~33.0        25          25         # dial slipped
      0.200    78.4    63.1!        25          24.5
      0.400   135?     -            24          24         # smudged
      0.200    78.6    63.3         25          24.5
  - name: As received again
    repeats: As received
    flow: |
      lift   intake  exhaust
      0.100   40.3     33.2
      0.200   78.0     63.0
  - name: Finished
    date: 2026-03-02
    by: N. N.
    bench: { air: { temperature: 66 } }
    intake:
      valves: 1
      ports: 1
      feeds: 1
      valve: { head: 1.732, margin: 0.045, back_cut: { angle: 30 deg, width: 0.030 }, stem: 0.315, material: stainless }
      seat: { angle: 45 deg, width: 0.050, top: { angle: 30 deg, width: 0.040 }, bottom: [60 deg, { angle: 75 deg, width: 0.070 }, { radius: 0.300 }], outside: 1.712, form: cut }
      throat: 1.525
      pinch: { width: 0.92, height: 1.72, corner: 0.20, where: pushrod wall, count: 1 }
      sections: |
        at     width  height  corner  name
        0      1.05   1.85    0.25    entry
        1.5    0.92   1.72    0.20    pushrod wall
      opening: { width: 1.05, height: 1.85, corner: 0.25, matched_to: gasket }
      gasket_window: { width: 1.10, height: 1.90, corner: 0.25 }
      port_volumes: { 1: 118, 2: 119 }
      port_length: 4.00
      added: filler
    exhaust: { port_volume: 60, pinch: { area: 1.2 } }
    chambers: { 1: 43.0, 2: 43.4 }
    valve_train: |
      valve  height  shim   tip    drop   guide   runout  vacuum/inHg  seal
      1I     1.562   0.030  1.612  0.045  0.0012  0.0008  25           -
      1E     1.548   0.015  1.640  0.060  0.0016  0.0010  held         0.520
      2Ia    1.560   0.030  1.613  0.046  0.0013  0.0007  lost         -
    vacuum_test: 20 inHg, 30 s
    deck: { cut: 0.010, cut_before: 0.020, thickness: 0.485, flatness: 0.0015, finish: 32 uin }
    layout: { bore: 3.425, intake: [ [0.78, 0.06] ], exhaust: [ [-0.88, 0.03] ], angle: { intake: 20 deg, exhaust: 20 deg } }
    runs:
      - { cylinder: 1, file: bench/2026-014-finished-1.csv, mount: 1 }
      - cylinder: 1
        mount: 2
        flow: |
          lift   intake
          0.100   44.3
          0.200   86.4
      - { cylinder: 5, hand: end, flow: "lift intake\\n0.100 43.0\\n0.200 85.0" }
      - { set: with pipe, cylinder: 1, bench: { exhaust_pipe: { diameter: 1.75, length: 8 } }, file: bench/2026-014-pipe.tsv }
compare:
  - { job: 2025-101.yaml, stage: Finished, label: "Same casting, standard valves" }
work:
  Intake ports: [ Bowls opened and blended to the seat, Short side laid back ]
  Deck: Cut once
not_done: [ Guides not replaced ]
checks: [ { check: Pressure test, method: 40 psi hot water 10 min, result: no leak }, { check: Flatness, value: 0.0015 in, limit: 0.003 in } ]
also_measured: [ { what: Short-side radius, intake: 12 mm, exhaust: 9 mm, how: radius gauge } ]
parts: [ { part: Valve guide, quantity: 12, note: bronze } ]
springs: { part: S-442, rate: 305 lbf/in, installed_height: 1.560, seat_force: 84 lbf, open_force: 215 lbf, open_at: 0.430, coil_bind: 1.020, retainer_to_seal: 0.510, set_up_for: 0.450, mass: 98 g, exhaust: { seat_force: 85 lbf } }
guides: { material: bronze, clearance: { intake: 0.0012, exhaust: 0.0016 } }
valve_train_limits: { alike: 0.005, guide: 0.0025, runout: 0.0015, seat_force: [80 lbf, 90 lbf], open_force: [180 lbf, 230 lbf], coil_bind: 0.050, retainer_to_seal: 0.060 }
agreed: [ "2Ia: lost 2 inHg in 30 s, to be lapped by the owner" ]
opinion: I would fit A, and keep B for a longer cam.
assembly: { Tip height intake: 1.612 in }
photos: [ { file: photos/2026-014-chamber.jpg, caption: "Chamber 1, finished", as: hero, focus: [0.5, 0.4] } ]
remarks: |
  The porter's own words to this customer; opinions stand here, under his name.
cautions: [ Thin wall at cylinder 3 ]
internal: the shop's own notes
`;

export const FULL_PRODUCT = `product: { part: "QH-100", name: Wedge six, revision: C, valid_from: 2026-04-01, price: on request, fits: [ Launch engine ], included: [ Valves ], not_included: [ Gaskets ], photo: logo.png, line: Each one is flowed before it leaves }
issued: 2026-04-01
sheet: catalogue
samples: [ 2026-014.yaml, { job: 2026-021.yaml, stage: Finished } ]
`;

export const FULL_SHOP = `shop: { name: Quayside Heads, strapline: Air through metal, address: [ 4 Slipway ], phone: "0100", email: q@example.org, web: example.org, logo: logo.png, accent: "#1F4E5F", responsible: N. N., warranty: ask us, cautions: [ Keep dry ] }
brand: { masthead: band, hero: outline, font: source }
paper: Letter
units: { length: in, area: in2, volume: cc, flow: cfm, pressure: inH2O, temperature: degF, speed: ft/s, force: lbf, power: hp }
bench: { name: Bench one, test_pressure: 28, reads: flow, meter: orifice, accuracy: 1.5 %, checked: 2026-02-01, against: plate no. 2 }
report: { test_pressure: 28 }
valve_train_limits: { alike: 0.004 }
`;
