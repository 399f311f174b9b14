import { z } from "zod";
import { key, keys, requiredKey } from "./keys.ts";
import { count, record, text, word } from "./plain.ts";
import { NOT_MEASURED, quantity as q } from "./quantities.ts";
import { sectionsTable } from "./tables.ts";

/** The keys of a stage that hold a port. */
export const SIDES = ["intake", "exhaust"] as const;

/** The dimensions of one port. Each is inherited by the next stage; `not measured` ends that. */
export const portSchema = () =>
  keys({
    valves: key(true, count("Valves fed by this port")),
    ports: key(true, count("Ports of this side that feed one cylinder")),
    feeds: key(true, count("Cylinders that this port feeds; siamesed: 2")),
    valve: key(true, valveOrValves(), { head: 1.732, margin: 0.045, material: "stainless" }),
    stem: key(true, q.length.inherited("Diameter of the valve's stem", 0.315)),
    seat: key("seat", z.union([notMeasured(), seatSchema()]).meta({ description: "The seat as cut" }), {
      angle: "45 deg",
      width: 0.05,
    }),
    throat: key(true, q.length.inherited("Smallest diameter under the seat", 1.4)),
    pinch: key("pinch", areaOrPinch(), { width: 0.92, height: 1.72, corner: 0.2, where: "pushrod wall" }),
    sections: key("sections", sectionsTable(), SECTIONS),
    opening: key(
      true,
      z.union([notMeasured(), openingSchema()]).meta({ description: "The port's opening at the face" }),
      { width: 1.05, height: 1.85, corner: 0.25 },
    ),
    gasket_window: key(
      true,
      z.union([notMeasured(), windowSchema()]).meta({ description: "The window of the gasket at the port's face" }),
      { width: 1.1, height: 1.9, corner: 0.25 },
    ),
    port_volume: key("portVolume", q.volume.inherited("Valve seated, stem in, to the face", "118 cc")),
    port_volumes: key(
      "portVolume",
      record("Port volumes by cylinder", q.volume.of("Port volume of this cylinder", "118 cc")),
      { 1: 118, 2: 119 },
    ),
    port_length: key(true, q.length.inherited("Centreline, face to seat", 4.0)),
    added: key(true, word(["filler", "weld"], "Metal can be taken off only, unless this says otherwise")),
  }).meta({ description: "One port" });

const SECTIONS =
  "at     width  height  corner  name\n0      1.05   1.85    0.25    entry\n1.5    0.92   1.72    0.20    pushrod wall\n";

const notMeasured = () => word([NOT_MEASURED], "Ends inheritance from the stage above");

const valveOrValves = () =>
  z
    .union([
      q.length.inherited("Diameter of the valve's head", 1.654),
      valveSchema(),
      z.array(z.union([q.length.of("Diameter of the valve's head", 1.654), valveSchema()])),
    ])
    .meta({ description: "Diameter of the valve's head, or the valve; a list for unlike valves" });

const valveSchema = () =>
  keys({
    head: key(true, q.length.inherited("Diameter of the valve's head", 1.732)),
    margin: key(true, q.length.inherited("Thickness of the head's rim", 0.045, "zero or more")),
    back_cut: key("seat", backCutSchema(), { angle: "30 deg", width: 0.03 }),
    stem: key(true, q.length.inherited("Diameter of the stem", 0.315)),
    material: key(true, text("What the valve is made of", "stainless")),
  });

const backCutSchema = () => {
  const cut = keys({
    angle: requiredKey(true, q.angle.of("Angle of the back cut", "30 deg")),
    width: key(true, q.length.of("Width of the back cut", 0.03)),
  });
  return z.union([notMeasured(), cut]).meta({ description: "The cut behind the seat's face on the valve" });
};

const bottomCut = () => q.angle.orWord("radius", "Angle of a bottom cut, or `radius`", "60 deg");

const cutSchema = () =>
  keys({
    angle: requiredKey(true, q.angle.of("Angle of the cut, from the face of the head", "30 deg")),
    width: key(true, q.length.of("Width of the cut along its face", 0.04)),
  });

const throatCutSchema = () =>
  keys({
    angle: key(true, q.angle.of("Angle of the cut, from the face of the head", "60 deg")),
    width: key(true, q.length.of("Width of the cut along its face", 0.07)),
    radius: key(true, q.length.of("Radius of a radiused throat, in place of an angle", 0.3)),
  });

const seatSchema = () =>
  keys({
    angle: key(true, q.angle.inherited("From the face of the head: 30 deg is flatter than 45 deg", "45 deg")),
    width: key(true, q.length.inherited("Along the face", 0.05)),
    top: key(
      true,
      z
        .union([q.angle.inherited("Top cut", "30 deg"), cutSchema()])
        .meta({ description: "Top cut: its angle, or { angle, width }" }),
      "30 deg",
    ),
    bottom: key(
      true,
      z
        .union([bottomCut(), throatCutSchema(), z.array(z.union([bottomCut(), throatCutSchema()]))])
        .meta({ description: "Bottom cuts, from the seat inwards; `radius` is a radiused throat under the seat" }),
      ["60 deg", "70 deg"],
    ),
    outside: key(true, q.length.inherited("Outer diameter of the seat", 1.712)),
    form: key(true, text("How it was cut", "cut")),
  });

const areaOrPinch = () =>
  z
    .union([q.area.inherited("Smallest section, as an area", "1.55 in2"), pinchSchema()])
    .meta({ description: "Smallest section of the port: its size, or an area" });

const pinchSchema = () =>
  keys({
    width: key(true, q.length.of("Width", 0.92)),
    height: key(true, q.length.of("Height", 1.72)),
    corner: key(true, q.length.of("Radius of its corners; none said: square", 0.2, "zero or more")),
    area: key(true, q.area.of("Its area, where width and height are not known", "1.55 in2")),
    where: key(true, text("Where it lies", "pushrod wall")),
    count: key(true, count("How many of these the port has side by side")),
  });

const windowSchema = () =>
  keys({
    width: key(true, q.length.inherited("Width", 1.1)),
    height: key(true, q.length.inherited("Height", 1.9)),
    corner: key(true, q.length.inherited("Radius of its corners", 0.25, "zero or more")),
  });

const openingSchema = () =>
  keys({
    width: key(true, q.length.inherited("Width", 1.05)),
    height: key(true, q.length.inherited("Height", 1.85)),
    corner: key(true, q.length.inherited("Radius of its corners", 0.25, "zero or more")),
    matched_to: key(true, text("What it was matched to", "gasket")),
  });
