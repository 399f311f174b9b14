import { error, warning } from "../../diagnostics/build.ts";
import type { Diagnostic } from "../../diagnostics/diagnostic.ts";
import { type Path, valueAt } from "../../parse/yaml/source-document.ts";
import { isMap } from "../../util/is-map.ts";
import { type PortFacts, type PortSide, valvesOf } from "../inherit.ts";
import type { JobPort } from "../schema/job.ts";
import { ofEachPort, type RuleInput, showLength } from "./rule.ts";
import { meantSize, typedSize } from "./typed.ts";
import { hasImpossibleValve } from "./valve-size.ts";

/** A list of unlike valves names each valve of the port. */
export const valveCount = ofEachPort(({ path, own, facts }, input) => {
  if (!Array.isArray(own.valve) || facts.valves === undefined || own.valve.length === facts.valves) return undefined;
  const message = `\`valve\` lists ${own.valve.length}, but the port feeds ${facts.valves} valves`;
  return [
    error("job/valve-count", message, input.located.span([...path, "valve"]), {
      hint: "list every valve of the port, or give one size for all",
    }),
  ];
});

/** A seat angle is counted from the face of the head, between flat and upright. */
export const seatAngles = ofEachPort(({ path, own }, input) => {
  if (typeof own.seat !== "object") return undefined;
  const { angle, top, bottom } = own.seat;
  const faults: Diagnostic[] = [];
  const check = (cut: unknown, ...key: Path) => {
    const value = isMap(cut) ? cut.angle : cut;
    if (typeof value !== "number" || value < Math.PI / 2) return;
    const at = input.located.span([...path, "seat", ...key]);
    const hint = "count it from the face of the head: 30 deg is flatter than 45 deg";
    const said = `a seat angle of ${Math.round((value * 180) / Math.PI)} deg`;
    faults.push(error("job/seat-angle", `${said} is not less than 90 deg`, at, { hint }));
  };
  check(angle, "angle");
  check(top, "top");
  if (Array.isArray(bottom)) for (const [at, value] of bottom.entries()) check(value, "bottom", at);
  else check(bottom, "bottom");
  return faults;
});

/** Warns of a seat that is not used because its angle is missing. */
export const seatsWithoutAngle = ofEachPort(({ path, own, facts, side }, { located }) => {
  if (own.seat === undefined || facts.seat === undefined || facts.seat.angle !== undefined) return undefined;
  // An angle that could not be read is reported itself.
  const isTyped = (stage: number) => valueAt(located.value, ["stages", stage, side, "seat", "angle"]) !== undefined;
  if (Array.from({ length: path[1] + 1 }, (_, stage) => stage).some(isTyped)) return undefined;
  const hint = "write { angle: 45 deg, width: 0.060 in }";
  const message = `the ${side} seat has no angle, so it is not used`;
  return [warning("job/seat-without-angle", message, located.keySpan([...path, "seat"]), { hint })];
});

/** Usual range of throat ÷ valve diameter and of stem ÷ valve diameter: common practice. */
const THROAT = [0.8, 0.92] as const;
const STEM = [0.12, 0.3] as const;

/** The narrowest that the seat may leave open: the valve less the radial part of the seat on both sides. */
function openDiameter(facts: PortFacts): number {
  const valve = Math.min(...valvesOf(facts, 1).map(({ head }) => head ?? Number.POSITIVE_INFINITY));
  // Seat width is measured along the face; only its radial part narrows the throat. No angle known: the whole width would refuse good jobs.
  const { width = 0, angle = Math.PI / 2 } = facts.seat ?? {};
  return valve - 2 * width * Math.cos(angle);
}

const isTooWide = ({ throat }: PortFacts, open: number) => throat !== undefined && throat > open * (1 + 1e-9);

/** The throat lies inside the seat: it cannot be wider than the valve less the seat on both sides. */
export const throatUnderValve = ofEachPort(({ side, stage, path, own, facts }, input) => {
  const { throat } = facts;
  const widest = openDiameter(facts);
  if (throat === undefined || !isTooWide(facts, widest) || hasImpossibleValve(facts)) return undefined;
  const above = factsAbove(input, path);
  // A throat that was too wide in the stage above was reported there.
  if (own.throat === undefined && above && isTooWide(above, openDiameter(above))) return undefined;
  const seat = facts.seat?.width ?? 0;
  const head = valvesOf(facts, 1)[0]?.head ?? 0;
  const seatIsWrong = own.seat !== undefined && throat < head && seat > MOST_SEAT * head;
  const key = seatIsWrong ? "seat" : own.throat !== undefined ? "throat" : own.valve !== undefined ? "valve" : "seat";
  if (own[key] === undefined) return undefined;
  // A seat that is far too wide was reported where it is stated.
  if (own.seat === undefined && throat < head && seat > MOST_SEAT * head) return undefined;
  const limit = showLength(widest, input.units);
  if (seatIsWrong) {
    const at = [...path, "seat", "width"];
    const meant = meantSize(at, "length", [0.025 * INCH, 0.12 * INCH], input);
    const message = `a seat ${typedSize(at, seat, "length", input)} wide leaves less open than the ${side} throat`;
    const hint = meant ?? "the width is measured along the seat's face; check its unit too";
    return [error("job/throat-over-valve", message, input.located.span(at), { hint })];
  }
  const at = [...path, "throat"];
  const meant = meantSize(at, "length", [THROAT[0] * head, Math.min(widest, THROAT[1] * head)], input);
  return [
    error(
      "job/throat-over-valve",
      `the ${side} throat of ${typedSize(at, throat, "length", input)} is wider than the valve leaves open`,
      input.located.span([...path, key]),
      {
        note: `in \`${stage.name}\` the valve is ${showLength(head, input.units)}; less the seat on both sides that leaves ${limit}`,
        hint: meant ?? "check throat, valve and seat width for swapped digits or units",
      },
    ),
  ];
});

const INCH = 0.0254;
/** A seat wider than this share of its valve is the size that is wrong. */
const MOST_SEAT = 0.12;

const stemOf = (facts: PortFacts) => Math.max(...valvesOf(facts, 1).map((valve) => valve.stem ?? 0));
const isFilled = (facts: PortFacts) => facts.throat !== undefined && stemOf(facts) >= facts.throat;

/** A stem as thick as the throat would close it. */
export const stemUnderThroat = ofEachPort(({ side, path, own, facts }, input) => {
  const { throat } = facts;
  const stem = stemOf(facts);
  if (throat === undefined || !isFilled(facts)) return undefined;
  const place = stemPath(path, own);
  const above = factsAbove(input, path);
  if (place === undefined && above && isFilled(above)) return undefined;
  const key = own.throat !== undefined ? "throat" : "valve";
  if (place === undefined && own[key] === undefined) return undefined;
  const head = valvesOf(facts, 1)[0]?.head ?? throat;
  const meant = place && meantSize(place, "length", [STEM[0] * head, STEM[1] * head], input);
  const said = typedSize(place ?? [...path, "stem"], stem, "length", input);
  const open = typedSize([...path, "throat"], throat, "length", input);
  return [
    error(
      "job/stem-over-throat",
      `the ${side} stem of ${said} fills the throat of ${open}`,
      input.located.span(place ?? [...path, key]),
      {
        hint: meant ?? "check stem and throat for swapped values or units",
      },
    ),
  ];
});

/** The path of a stem that a port states for itself or for its one valve. */
function stemPath(path: Path, { stem, valve }: JobPort): Path | undefined {
  if (typeof valve === "object" && "stem" in valve && valve.stem !== undefined) return [...path, "valve", "stem"];
  return stem === undefined ? undefined : [...path, "stem"];
}

/** The same port in the stage from which this one inherits. */
function factsAbove(
  { inherited }: RuleInput,
  [, index, side]: readonly [string, number, PortSide],
): PortFacts | undefined {
  const from = inherited[index]?.from;
  return from === undefined ? undefined : inherited[from]?.[side];
}
