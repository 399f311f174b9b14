import type { Held } from "../sheet/held.ts";
import { profileText, sectionsText } from "./plain-tables.ts";
import type { Shape } from "./shape.ts";

const text: Shape = { text: true };
const number: Shape = { number: true };
const of = (kind: NonNullable<Shape["kind"]>): Shape => ({ kind });
const keys = (held: Readonly<Record<string, Shape | false>>): Shape => ({
  keys: Object.fromEntries(Object.entries(held).filter((entry): entry is [string, Shape] => entry[1] !== false)),
});
const [length, area, volume, flow, angle, ratio] = (
  ["length", "area", "volume", "flow", "angle", "ratio"] as const
).map(of) as [Shape, Shape, Shape, Shape, Shape, Shape];
const pressure = of("pressure");

/** How readings were taken. */
export const benchShape: Shape = keys({
  name: text,
  test_pressure: pressure,
  reads: text,
  meter: text,
  ranges: { record: keys({ intake: flow, exhaust: flow }) },
  leakage: keys({ intake: flow, exhaust: flow, how: text, test_pressure: pressure }),
  air: keys({ temperature: of("temperature"), pressure, humidity: ratio }),
  bore_fixture: length,
  intake_entry: text,
  exhaust_pipe: { text: true, ...keys({ diameter: length, length }) },
  attached: keys({ intake: text, exhaust: text }),
  accuracy: ratio,
  repeatability: { kind: "ratio", ...keys({ spread: ratio, of: number }) },
  remount: ratio,
  lift_setting: length,
  resolution: flow,
  check_plate: keys({ nominal: flow, before: flow, after: flow }),
  checked: text,
  against: text,
});

/** One state of the head; its readings and bench are written by hand. */
export const stageShape = (held: Held): Shape =>
  keys({
    name: text,
    date: text,
    repeats: text,
    intake: portShape(held),
    exhaust: portShape(held),
    chamber: volume,
    chambers: { record: volume },
    deck: keys({ cut: length, cut_before: length, thickness: length, flatness: length }),
    layout: keys({ bore: length, intake: length, exhaust: length, angle: keys({ intake: angle, exhaust: angle }) }),
  });

const portShape = (held: Held): Shape =>
  keys({
    valves: number,
    ports: number,
    feeds: number,
    valve: {
      kind: "length",
      ...keys({
        head: length,
        margin: length,
        back_cut: !held.seat && keys({ angle, width: length }),
        stem: length,
        material: text,
      }),
    },
    stem: length,
    seat: !held.seat && keys({ angle, width: length, top: angle, bottom: angle, outside: length, form: text }),
    throat: length,
    pinch: !held.pinch && {
      kind: "area",
      ...keys({ width: length, height: length, corner: length, area, where: text, count: number }),
    },
    sections: !held.sections && { table: sectionsText },
    opening: keys({ width: length, height: length, corner: length, matched_to: text }),
    port_volume: !held.portVolume && volume,
    port_volumes: !held.portVolume && { record: volume },
    port_length: length,
    added: text,
  });

const camShape: Shape = keys({
  net_lift: length,
  lobe_lift: length,
  rocker: number,
  lash: length,
  duration: angle,
  at: length,
  of: text,
  durations: keys({ duration: angle, at: length }),
  profile: { table: profileText },
  lobe_separation: angle,
  intake_centre: angle,
  centre: angle,
});

const engineShape: Shape = keys({
  name: text,
  cylinders: number,
  bore: length,
  stroke: length,
  rod_length: length,
  gasket: keys({ bore: length, compressed: length, volume }),
  piston: keys({ dish: volume, dome: volume, below_deck: length, above_deck: length }),
  rpm: keys({ from: of("rotation"), to: of("rotation") }),
  intake_cam: camShape,
  exhaust_cam: camShape,
  lobe_separation: angle,
  intake_centre: angle,
});

/** What a customer's copy of his job may hold: facts of his head, nothing of the shop's own and nothing held back. */
export const jobShape: Shape = keys({
  job: text,
  issued: text,
  received: text,
  revision: number,
  replaces: text,
  because: text,
  draft: text,
  customer: keys({ name: text, reference: text }),
  head: keys({ name: text, casting: text, stamped: text, material: text, condition: text, numbering: text }),
  heads: keys({ id: text, name: text, casting: text, stamped: text, cylinders: number }),
  engine: engineShape,
  delivered: text,
  work: { record: text },
  not_done: text,
  checks: keys({ check: text, method: text, result: text, value: text, limit: text }),
  also_measured: { record: text },
  parts: keys({ part: text, quantity: text, note: text }),
  springs: keys({
    installed_height: length,
    seat_force: of("force"),
    open_force: of("force"),
    open_at: length,
    coil_bind: length,
    retainer_to_seal: length,
    mass: of("mass"),
  }),
  assembly: { record: text },
  remarks: text,
  cautions: text,
});

/** What the sheet was asked to say. */
export const reportShape = (held: Held): Shape =>
  keys({
    test_pressure: pressure,
    lifts: { text: true, kind: "length" },
    headline_set: text,
    pinch_limit: !held.pinch && of("speed"),
    power_per_flow: of("powerPerFlow"),
    strict: text,
  });
