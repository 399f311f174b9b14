import { z } from "zod";
import { count, text, word } from "./plain.ts";
import { type Declared, NOT_MEASURED, type Quantities } from "./quantities.ts";
import { sectionsTable } from "./tables.ts";

/** The keys of a stage that hold a port. */
export const SIDES = ["intake", "exhaust"] as const;

/** The dimensions of one port. Each is inherited by the next stage; `not measured` ends that. */
export const portSchema = (q: Quantities, declared: Declared) =>
  z
    .strictObject({
      valves: count("Valves fed by this port").optional(),
      ports: count("Ports of this side that feed one cylinder").optional(),
      feeds: count("Cylinders that this port feeds; siamesed: 2").optional(),
      valve: z
        .union([
          q.length.inherited("Diameter of the valve's head", 1.654),
          valveSchema(q),
          z.array(z.union([q.length.of("Diameter of the valve's head", 1.654), valveSchema(q)])),
        ])
        .meta({ description: "Diameter of the valve's head, or the valve; a list for unlike valves" })
        .optional(),
      stem: q.length.inherited("Diameter of the valve's stem", 0.315).optional(),
      seat: z
        .union([notMeasured(), seatSchema(q)])
        .meta({ description: "The seat as cut" })
        .optional(),
      throat: q.length.inherited("Smallest diameter under the seat", 1.4).optional(),
      pinch: z
        .union([q.area.inherited("Smallest section, as an area", "1.55 in2"), pinchSchema(q)])
        .meta({ description: "Smallest section of the port: its size, or an area" })
        .optional(),
      sections: sectionsTable(declared).optional(),
      opening: z
        .union([notMeasured(), openingSchema(q)])
        .meta({ description: "The port's opening at the face" })
        .optional(),
      port_volume: q.volume.inherited("Valve seated, stem in, to the face", "118 cc").optional(),
      port_volumes: z
        .record(z.string(), q.volume.of("Port volume of this cylinder", "118 cc"))
        .meta({ description: "Port volumes by cylinder" })
        .optional(),
      port_length: q.length.inherited("Centreline, face to seat", 4.0).optional(),
      added: word(["filler", "weld"], "Metal can be taken off only, unless this says otherwise").optional(),
    })
    .meta({ description: "One port" });

const notMeasured = () => word([NOT_MEASURED], "Ends inheritance from the stage above");

const valveSchema = (q: Quantities) =>
  z.strictObject({
    head: q.length.inherited("Diameter of the valve's head", 1.732).optional(),
    margin: q.length.inherited("Thickness of the head's rim", 0.045, "zero or more").optional(),
    back_cut: z
      .union([
        notMeasured(),
        z.strictObject({
          angle: q.angle.of("Angle of the back cut", "30 deg"),
          width: q.length.of("Width of the back cut", 0.03).optional(),
        }),
      ])
      .meta({ description: "The cut behind the seat's face on the valve" })
      .optional(),
    stem: q.length.inherited("Diameter of the stem", 0.315).optional(),
    material: text("What the valve is made of", "stainless").optional(),
  });

const seatSchema = (q: Quantities) =>
  z.strictObject({
    angle: q.angle.inherited("From the face of the head: 30 deg is flatter than 45 deg", "45 deg").optional(),
    width: q.length.inherited("Along the face", 0.05).optional(),
    top: q.angle.inherited("Top cut", "30 deg").optional(),
    bottom: z
      .union([q.angle.inherited("Bottom cut", "60 deg"), z.array(q.angle.of("Bottom cut", "60 deg"))])
      .meta({ description: "Bottom cuts, from the seat inwards" })
      .optional(),
    outside: q.length.inherited("Outer diameter of the seat", 1.712).optional(),
    form: text("How it was cut", "cut").optional(),
  });

const pinchSchema = (q: Quantities) =>
  z.strictObject({
    width: q.length.of("Width", 0.92).optional(),
    height: q.length.of("Height", 1.72).optional(),
    corner: q.length.of("Radius of its corners; none said: square", 0.2, "zero or more").optional(),
    area: q.area.of("Its area, where width and height are not known", "1.55 in2").optional(),
    where: text("Where it lies", "pushrod wall").optional(),
    count: count("How many of these the port has side by side").optional(),
  });

const openingSchema = (q: Quantities) =>
  z.strictObject({
    width: q.length.inherited("Width", 1.05).optional(),
    height: q.length.inherited("Height", 1.85).optional(),
    corner: q.length.inherited("Radius of its corners", 0.25, "zero or more").optional(),
    matched_to: text("What it was matched to", "gasket").optional(),
  });
